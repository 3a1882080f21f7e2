// Package supplies is the screen of what is counted, not tagged: cannulas,
// tubing, connectors, washers, by lot and place, with what is to be ordered.
package supplies

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/work"
)

// Row is one lot at one place, its words ready. The first of a supply names it.
type Row struct {
	Key    string
	Find   string // the supply on each row, to be found by letters
	Supply string // said on the first row of a supply alone
	All    string // that can be given, beside its name
	Level  string
	Place  string
	Lot    string
	Count  string
	Note   string
	Alarm  bool

	stock inventory.SupplyStock
}

// Model is what the screen shows and does.
type Model struct {
	work *work.Work

	Rows  []Row
	Title string
	Low   string // what is to be ordered

	programme delivery.Programme
	stock     []inventory.SupplyStock
	Changed   func()
}

// NewModel returns an empty screen.
func NewModel(w *work.Work) *Model { return &Model{work: w, Changed: func() {}} }

type loaded struct {
	programme delivery.Programme
	stock     []inventory.SupplyStock
	now       time.Time
}

// Load reads the supplies anew.
func (m *Model) Load() {
	now := m.work.Now()
	work.Ask(m.work, "supplies", func(ctx context.Context) (l loaded, err error) {
		l.now = now
		if l.programme, err = m.work.Desk.Programme(ctx); err != nil {
			return l, err
		}
		l.stock, err = m.work.Desk.Supplies(ctx)
		return l, err
	}, m.show)
}

func (m *Model) show(l loaded) {
	m.programme, m.stock, m.Rows = l.programme, l.stock, nil
	low := l.programme.Low(l.stock, l.now)
	seen := map[string]bool{}
	for _, s := range l.stock {
		key := inventory.SupplyKey(s.Supply)
		row := rowOf(s, l.now)
		row.Key = strconv.Itoa(len(m.Rows))
		if !seen[key] {
			row.Supply, row.All, row.Level = s.Supply, strconv.Itoa(usable(l.stock, key, l.now)), m.level(key)
		}
		seen[key] = true
		m.Rows = append(m.Rows, row)
	}
	for _, x := range l.programme.Supplies { // wanted, and none there
		if key := inventory.SupplyKey(x.Supply); !seen[key] {
			m.Rows = append(m.Rows, Row{
				Key: strconv.Itoa(len(m.Rows)), Find: x.Supply, Supply: x.Supply, All: "0", Level: m.level(key), Note: "none is in the book", Alarm: x.Reorder > 0,
				stock: inventory.SupplyStock{Supply: x.Supply},
			})
		}
	}
	m.Title, m.Low = fmt.Sprintf("%d supplies", countSupplies(m.Rows)), ToOrder(low)
	m.Changed()
}

// ToOrder says what is under its level: "To order: cannula 12 of 40".
func ToOrder(low []delivery.LowSupply) string {
	if len(low) == 0 {
		return ""
	}
	words := make([]string, len(low))
	for i, l := range low {
		words[i] = l.InWords()
	}
	return "To order: " + strings.Join(words, ", ")
}

func countSupplies(rows []Row) (n int) {
	for _, r := range rows {
		if r.Supply != "" {
			n++
		}
	}
	return n
}

func usable(stock []inventory.SupplyStock, key string, now time.Time) (n int) {
	for _, s := range stock {
		if inventory.SupplyKey(s.Supply) == key && s.Usable(now) {
			n += s.Count
		}
	}
	return n
}

// level returns under how many a supply is ordered anew; empty for none set.
func (m *Model) level(key string) string {
	i := slices.IndexFunc(m.programme.Supplies, func(l delivery.SupplyLevel) bool { return inventory.SupplyKey(l.Supply) == key })
	if i < 0 {
		return ""
	}
	return strconv.Itoa(m.programme.Supplies[i].Reorder)
}

func rowOf(s inventory.SupplyStock, now time.Time) Row {
	r := Row{Find: s.Supply, Place: s.At.InWords(), Lot: s.Lot, Count: strconv.Itoa(s.Count), stock: s}
	if s.Lot == "" {
		r.Lot = "no lot noted"
	}
	switch {
	case s.Recall != "":
		r.Note, r.Alarm = "recall "+s.Recall+": give to nobody", true
	case !s.Usable(now):
		r.Note, r.Alarm = "expired "+s.Expires, true
	case s.Count < 0:
		r.Note = "given without its lot: count them"
	case s.Expires != "":
		r.Note = "expires " + s.Expires
	}
	if s.At == "" { // a recalled lot of which none lies here
		r.Place, r.Count = "nowhere", "0"
	}
	if !s.Counted.IsZero() {
		r.Note = strings.TrimPrefix(r.Note+" · counted "+delivery.Ago(s.Counted, now), " · ")
	}
	return r
}

// InHand returns what a row is about.
func (m *Model) InHand(key string) (inventory.SupplyStock, bool) {
	i := slices.IndexFunc(m.Rows, func(r Row) bool { return r.Key == key })
	if i < 0 {
		return inventory.SupplyStock{}, false
	}
	return m.Rows[i].stock, true
}
