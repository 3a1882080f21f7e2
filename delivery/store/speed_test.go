package store_test

import (
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
	"lungwort/inventory/gas"
	items "lungwort/inventory/store"
)

// The book the speeds are measured on: a programme some years old. The promises
// about an item's history, recalls and the audit are for 50,000 things and
// 1,000,000 facts.
var (
	bigItems = flag.Int("things", 20_000, "of the book the speeds are measured on")
	bigFacts = flag.Int("facts", 500_000, "in that book, about")
)

const bigLoans = 5_000

// years is an act that writes the past of a big programme in one go.
type years struct {
	from, to int // items
	start    time.Time
}

// busiest is how often the first thing of that book was read: twice a week for
// four years.
const busiest = 400

// factsEach is how many readings give each item its share of the facts.
func factsEach() int { return *bigFacts / *bigItems - 5 }

func (y years) Decide(v delivery.View) (delivery.Change, error) {
	var c delivery.Change
	for n := y.from; n < y.to; n++ {
		id, tag, err := v.NewItem()
		if err != nil {
			return c, err
		}
		spec := inventory.Spec{Kind: inventory.Cylinder, Size: "US-E", Serial: fmt.Sprintf("E-%06d", n)}
		if n%4 == 3 {
			spec = inventory.Spec{Kind: inventory.Concentrator, Rated: 5, Serial: fmt.Sprintf("CN%06d", n)}
		}
		at := y.start
		add := func(s inventory.Statement, who inventory.PersonID) {
			at = at.Add(time.Hour)
			c.Facts = append(c.Facts, inventory.Fact{Happened: at, Item: id, Person: who, Statement: s})
		}
		add(&inventory.Enrolled{Tag: tag, Spec: spec}, "")
		add(&inventory.Moved{To: "depot:harbour"}, "")
		gauge := gas.PSI(1900)
		readings := factsEach()
		if n == 0 {
			readings = busiest
		}
		for range readings {
			add(&inventory.Observed{Gauge: &gauge}, "")
		}
		add(&inventory.Cleared{Depot: "harbour"}, "")
		if n < 2*bigLoans && n%2 == 0 {
			who, err := y.lend(v, &c, n, at)
			if err != nil {
				return c, err
			}
			add(&inventory.Lent{Spec: spec, Role: inventory.Backup, At: "address:a"}, who)
			add(&inventory.Observed{Gauge: &gauge}, who)
		}
	}
	return c, nil
}

// lend registers a person who is on a concentrator since long.
func (y years) lend(v delivery.View, c *delivery.Change, n int, at time.Time) (inventory.PersonID, error) {
	who, err := v.NewPerson()
	if err != nil {
		return who, err
	}
	home, err := v.NewAddress()
	if err != nil {
		return who, err
	}
	c.Persons = append(c.Persons, delivery.Person{ID: who, Family: fmt.Sprintf("Family%d", n), Given: "Ines", Record: fmt.Sprintf("%07d", n)})
	c.Addresses = append(c.Addresses, delivery.Address{ID: home, Street: fmt.Sprintf("Kelp Street %d", n), Mains: delivery.MainsYes})
	for _, s := range []inventory.Statement{
		&delivery.Registered{}, &delivery.Settled{Address: home},
		&delivery.Ordered{Rest: 2, Hours: 24}, &delivery.Switched{To: delivery.FromConcentrator},
	} {
		c.Facts = append(c.Facts, inventory.Fact{Happened: at, Person: who, Statement: s})
	}
	return who, nil
}

var bigBook = sync.OnceValues(func() (string, error) {
	dir, err := os.MkdirTemp("", "lungwort-speed")
	if err != nil {
		return "", err
	}
	path := filepath.Join(dir, "book.lungwort")
	b, err := book.Create(context.Background(), path, book.Options{Now: booktest.NewClock().Now, Sets: store.Migrations()})
	if err != nil {
		return "", err
	}
	desk := store.NewDesk(b)
	hand := store.Hand{By: "speed", Source: inventory.Sheet, At: booktest.Start.Add(-48 * time.Hour)}
	p := delivery.NewProgramme()
	p.Depots = []delivery.Site{{Name: "harbour"}}
	if _, err := desk.Do(context.Background(), hand, delivery.Settings{Programme: p}); err != nil {
		return "", err
	}
	const step = 500
	for from := 0; from < *bigItems; from += step {
		if _, err := desk.Do(context.Background(), hand, years{from, from + step, booktest.Start.Add(-60 * 24 * time.Hour)}); err != nil {
			return "", err
		}
	}
	return path, b.Close()
})

func openBig(b *testing.B) *store.Desk {
	b.Helper()
	path, err := bigBook()
	require.NoError(b, err)
	opened, err := book.Open(context.Background(), path, book.Options{Now: booktest.NewClock().Now, Sets: store.Migrations()})
	require.NoError(b, err)
	b.Cleanup(func() { require.NoError(b, opened.Close()) })
	return store.NewDesk(opened)
}

// BenchmarkFirstScreen opens the big book and reads the first screen.
func BenchmarkFirstScreen(b *testing.B) {
	path, err := bigBook()
	require.NoError(b, err)
	for b.Loop() {
		opened, err := book.Open(context.Background(), path, book.Options{Now: booktest.NewClock().Now, Sets: store.Migrations()})
		require.NoError(b, err)
		rows, err := store.NewDesk(opened).Watch(context.Background(), booktest.Start)
		require.NoError(b, err)
		require.Len(b, rows, bigLoans)
		require.NoError(b, opened.Close())
	}
}

// BenchmarkSearch looks a name and a serial up as they are typed.
func BenchmarkSearch(b *testing.B) {
	desk := openBig(b)
	for b.Loop() {
		_, err := desk.Homes(context.Background(), "family12", 6)
		require.NoError(b, err)
		_, _, err = desk.Items(context.Background(), items.Filter{Text: "e-0123", Limit: 6})
		require.NoError(b, err)
	}
}

// BenchmarkDischarge hands a kit over on the big book.
func BenchmarkDischarge(b *testing.B) {
	desk := openBig(b)
	ready, _, err := desk.Items(context.Background(), items.Filter{States: []inventory.State{inventory.Ready}, Kind: inventory.Cylinder})
	require.NoError(b, err)
	hand := store.Hand{By: "speed", Source: inventory.Keyed, At: booktest.Start}
	n := 0
	for b.Loop() {
		b.StopTimer()
		out, err := desk.Do(context.Background(), hand, delivery.Register{
			Person: delivery.Person{Family: "New"}, Address: delivery.Address{Street: "Gull Row 14", Mains: delivery.MainsYes},
		})
		require.NoError(b, err)
		who := out.Facts[0].Person
		_, err = desk.Do(context.Background(), hand, delivery.Order{Person: who, Rest: 2, Hours: 24})
		require.NoError(b, err)
		b.StartTimer()
		_, err = desk.Do(context.Background(), hand, delivery.Discharge{
			Person: who, Ward: "6B", Arrives: hand.At.Add(time.Hour),
			HandOver: []delivery.Piece{{Item: ready[n].ID, Gauge: new(gas.PSI(1900))}},
		})
		require.NoError(b, err)
		n++
	}
}

// BenchmarkItemHistory reads the page of one item of the big book, of any and of
// the one with the longest history; the promise is under 10 ms.
func BenchmarkItemHistory(b *testing.B) {
	desk := openBig(b)
	for serial, facts := range map[string]int{"E-000100": factsEach(), "E-000000": busiest} {
		one, err := desk.Item(context.Background(), serial, 0)
		require.NoError(b, err)
		b.Run(fmt.Sprint(facts, " readings"), func(b *testing.B) {
			for b.Loop() {
				page, err := desk.ItemPage(context.Background(), one.ID)
				require.NoError(b, err)
				require.Greater(b, len(page.Facts), facts)
			}
		})
	}
}

// BenchmarkAudit proves the big book and reports how long that takes for a
// million facts; the promise is under 60 s.
func BenchmarkAudit(b *testing.B) {
	desk := openBig(b)
	facts := 0
	for b.Loop() {
		a, err := desk.Audit(context.Background())
		require.NoError(b, err)
		require.Empty(b, a.Mismatches)
		facts += a.Facts
	}
	b.ReportMetric(b.Elapsed().Seconds()/float64(facts)*1e6, "s/million-facts")
}

// BenchmarkRecallByRange looks a range of serials up among all that were ever
// owned; the promise is under 200 ms among 50,000.
func BenchmarkRecallByRange(b *testing.B) {
	desk := openBig(b)
	for b.Loop() {
		found, err := desk.FindRecalled(context.Background(), delivery.RecallNotice{From: "CN002000", To: "CN002399"})
		require.NoError(b, err)
		require.Len(b, found.Places, 100)
	}
}

// BenchmarkRecallByList looks up a list as long as one of a public notice.
func BenchmarkRecallByList(b *testing.B) {
	desk := openBig(b)
	list := make([]string, 1724)
	for n := range list {
		list[n] = fmt.Sprintf("CN%06d", n)
	}
	for b.Loop() {
		found, err := desk.FindRecalled(context.Background(), delivery.RecallNotice{Serials: list})
		require.NoError(b, err)
		require.Len(b, found.Places, len(list)/4)
	}
}
