// Package outage is the screen for a power cut, under way or announced: which
// homes it touches, how long each lasts, what must be brought, who must go
// where power is, and the calls, one after another.
package outage

import (
	"context"
	"fmt"
	"strconv"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/paperwork"
	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/work"
)

// Lengths are how long power can be counted out where nobody knows.
var Lengths = []time.Duration{4 * time.Hour, 8 * time.Hour, 24 * time.Hour, 72 * time.Hour}

// List is which homes are shown, and in which order.
type List string

// The lists.
const (
	ByCover  List = "cover"
	ByCall   List = "calls"
	NoAnswer List = "silent"
)

// Place is a power cut or a zone that can be chosen.
type Place struct {
	ID     string
	Name   string
	Detail string
	Count  string // homes on oxygen
	Out    bool   // power is out there now
	Cut    delivery.PowerCut
}

// Row is one home in the power cut, its words ready.
type Row struct {
	ID      inventory.PersonID
	Verdict string
	Name    string
	Detail  string // phone and street
	Cover   string
	Ends    string
	Call    string // when to call next, and what was found
	Found   string
	Next    string
	Urgent  bool
	Ribbon  scene.RibbonData
}

// Model is what the screen shows and does.
type Model struct {
	work  *work.Work
	all   delivery.Programme
	here  string               // the place chosen
	drawn []inventory.PersonID // the homes of an area drawn on the map

	Hours   time.Duration
	ByCalls bool // in the order of the calls, else by hours of cover
	Silent  bool // only homes that were called and did not answer
	Places  []Place
	Plan    delivery.OutagePlan
	Answer  delivery.Answer
	Rows    []Row

	Changed func()
}

// NewModel returns an empty screen.
func NewModel(w *work.Work) *Model { return &Model{work: w, Hours: Lengths[1], Changed: func() {}} }

// loaded is one reading of the book.
type loaded struct {
	places []Place
	all    delivery.Programme
	plan   delivery.OutagePlan
	here   string
}

// Load reads the book anew.
func (m *Model) Load() {
	now, here, hours, homes := m.work.Now(), m.here, m.Hours, m.drawn
	work.Ask(m.work, "outage", func(ctx context.Context) (l loaded, err error) {
		rows, err := m.work.Desk.Watch(ctx, now)
		if err != nil {
			return l, err
		}
		cuts, err := m.work.Desk.PowerCuts(ctx, now)
		if err != nil {
			return l, err
		}
		if l.all, err = m.work.Desk.Programme(ctx); err != nil {
			return l, err
		}
		l.places = places(rows, cuts, now)
		if len(homes) > 0 {
			l.places = append(l.places, areaOf(rows, homes, now))
		}
		chosen := chosen(l.places, here)
		l.here = chosen.ID
		l.plan, err = m.work.Desk.Outage(ctx, chosen.Cut, hours, now)
		return l, err
	}, m.show)
}

// places lists the power cuts that are not over, then every zone homes lie in.
func places(rows []delivery.Watch, cuts []delivery.PowerCut, now time.Time) []Place {
	addresses := make([]delivery.Address, len(rows))
	for i, w := range rows {
		addresses[i] = w.Address
	}
	var list []Place
	for _, c := range cuts {
		homes := 0
		for _, a := range addresses {
			if c.Touches(a) {
				homes++
			}
		}
		p := Place{ID: "cut " + strconv.FormatInt(int64(c.ID), 10), Name: title(c.Zone()), Count: strconv.Itoa(homes), Cut: c, Out: !c.From.After(now)}
		p.Detail = "announced for " + delivery.Clock(c.From, now)
		if p.Out {
			p.Detail = "out since " + delivery.Clock(c.From, now)
		}
		if !c.Until.IsZero() {
			p.Detail += " to " + delivery.Clock(c.Until, now)
		}
		list = append(list, p)
	}
	for _, z := range delivery.Zones(addresses) {
		list = append(list, Place{
			ID: string(z.By) + " " + z.Name, Name: title(z.Zone), Detail: "what if: " + kind(z.By), Count: strconv.Itoa(z.Homes),
			Cut: delivery.PowerCut{By: z.By, Area: z.Name, From: now},
		})
	}
	return list
}

func title(z delivery.Zone) string {
	if z.By == delivery.Everywhere {
		return "Everywhere"
	}
	return z.Name
}

func kind(by delivery.ZoneKind) string {
	switch by {
	case delivery.Everywhere:
		return "all homes"
	case delivery.ByLine:
		return "power line"
	}
	return string(by)
}

// chosen returns the place of an ID: without one, the first that is out, or
// announced, or everywhere.
func chosen(places []Place, id string) Place {
	for _, p := range places {
		if p.ID == id {
			return p
		}
	}
	return places[0]
}

func (m *Model) show(l loaded) {
	m.Places, m.all, m.Plan, m.here = l.places, l.all, l.plan, l.here
	m.Answer = l.plan.Answer(l.all)
	m.sort()
	m.Changed()
}

func (m *Model) sort() {
	homes := m.Plan.Homes
	if !m.ByCalls {
		homes = m.Plan.ByCover()
	}
	m.Rows = m.Rows[:0:0]
	for _, h := range homes {
		if !m.Silent || h.Contact.Tried > 0 {
			m.Rows = append(m.Rows, m.row(h))
		}
	}
}

func (m *Model) row(h delivery.OutageHome) Row {
	now := m.Plan.At
	r := Row{
		ID: h.Person.ID, Verdict: string(h.State), Name: h.Person.Short() + ", " + h.Address.Street,
		Cover: "not known", Ends: delivery.Clock(h.Ends, now), Call: "call now", Found: string(h.Contact.Found),
		Ribbon: paperwork.OutageRibbon(m.Plan, h),
	}
	var reach []string
	for _, p := range h.Person.Phones {
		reach = append(reach, strings.TrimSpace(p.Number+" "+p.Whose))
	}
	r.Detail = strings.Join(append(reach, h.Flow.String(), h.Gas), " · ")
	if h.Known {
		r.Cover = delivery.Spell(h.Cover)
	}
	if h.NextCall.After(now) {
		r.Call = "call " + delivery.Clock(h.NextCall, now)
	}
	if h.Contact.Tried > 0 {
		r.Found = "no answer " + triedInWords(h.Contact.Tried)
	}
	r.Next, r.Urgent = m.Plan.Next(m.all, h)
	if told := h.Care.Told[delivery.NotReached]; h.Contact.Tried > 0 && told.After(m.Plan.Cut.From) {
		r.Next, r.Urgent = "somebody looks in, asked "+delivery.Clock(told, now)+": call again", false
	}
	if saved := h.Saved(now); saved != "" {
		r.Next = saved + ": tell the clinician"
	}
	return r
}

// Choose shows another place.
func (m *Model) Choose(id string) {
	if id != "" && id != m.here {
		m.here = id
		m.Load()
	}
}

// Here is the place chosen.
func (m *Model) Here() string { return m.here }

// SetHours counts power out for another length.
func (m *Model) SetHours(h time.Duration) {
	m.Hours = h
	m.Load()
}

// SetList shows the homes by hours of cover, in the order of the calls, or only
// those that did not answer.
func (m *Model) SetList(list List) {
	m.ByCalls, m.Silent = list != ByCover, list == NoAnswer
	m.sort()
	m.Changed()
}

// Recorded reports whether a recorded power cut is chosen, in which calls can
// be logged.
func (m *Model) Recorded() bool { return m.Plan.Cut.ID != 0 }

// NextCall returns whom to call next: the first whose call is due.
func (m *Model) NextCall() (inventory.PersonID, bool) {
	for _, h := range m.Plan.Homes {
		if !h.NextCall.After(m.Plan.At) {
			return h.Person.ID, true
		}
	}
	return "", false
}

// Title says where power is out and how many homes are touched.
func (m *Model) Title() string {
	if m.Plan.At.IsZero() {
		return ""
	}
	homes := "1 home"
	if n := len(m.Plan.Homes); n != 1 {
		homes = fmt.Sprintf("%d homes", n)
	}
	return fmt.Sprintf("%s %s · facts as of %s", homes, m.Plan.Cut.Zone().InWords(), m.Plan.At.Format("15:04"))
}

// Open goes to the page of a row's person.
func (m *Model) Open(id inventory.PersonID) {
	m.work.Open(work.Target{Room: work.Person, Person: id})
}
