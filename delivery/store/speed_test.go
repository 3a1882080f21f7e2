package store_test

import (
	"context"
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

// The book the speeds are measured on: a programme some years old.
const (
	bigItems = 20_000
	bigLoans = 5_000
	bigFacts = 500_000
)

// years is an act that writes the past of a big programme in one go.
type years struct {
	from, to int // items
	start    time.Time
}

// factsEach is how many readings give each item its share of the facts.
const factsEach = bigFacts/bigItems - 5

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
		for range factsEach {
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
	for from := 0; from < bigItems; from += step {
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

// BenchmarkItemHistory reads the page of one item of the big book; the promise
// is under 10 ms.
func BenchmarkItemHistory(b *testing.B) {
	desk := openBig(b)
	one, err := desk.Item(context.Background(), "E-000100", 0)
	require.NoError(b, err)
	for b.Loop() {
		page, err := desk.ItemPage(context.Background(), one.ID)
		require.NoError(b, err)
		require.Greater(b, len(page.Facts), factsEach)
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

// BenchmarkRecallByRange looks a range of serials up among 50,000 items; the
// promise is under 200 ms.
func BenchmarkRecallByRange(b *testing.B) {
	path, err := manyItems()
	require.NoError(b, err)
	opened, err := book.Open(context.Background(), path, book.Options{Now: booktest.NewClock().Now, Sets: store.Migrations()})
	require.NoError(b, err)
	b.Cleanup(func() { require.NoError(b, opened.Close()) })
	desk := store.NewDesk(opened)
	for b.Loop() {
		found, err := desk.FindRecalled(context.Background(), delivery.RecallNotice{From: "JA0000012000", To: "JA0000012099"})
		require.NoError(b, err)
		require.Len(b, found.Places, 100)
	}
}

// manyItems is a book of 50,000 items with two facts each.
var manyItems = sync.OnceValues(func() (string, error) {
	dir, err := os.MkdirTemp("", "lungwort-recall")
	if err != nil {
		return "", err
	}
	path := filepath.Join(dir, "book.lungwort")
	b, err := book.Create(context.Background(), path, book.Options{Now: booktest.NewClock().Now, Sets: store.Migrations()})
	if err != nil {
		return "", err
	}
	desk, hand := store.NewDesk(b), store.Hand{By: "speed", Source: inventory.Sheet, At: booktest.Start}
	for from := 0; from < 50_000; from += 1000 {
		if _, err := desk.Do(context.Background(), hand, bought{from, from + 1000}); err != nil {
			return "", err
		}
	}
	return path, b.Close()
})

// bought is an act that brings concentrators into the book.
type bought struct{ from, to int }

func (a bought) Decide(v delivery.View) (delivery.Change, error) {
	var c delivery.Change
	for n := a.from; n < a.to; n++ {
		id, tag, err := v.NewItem()
		if err != nil {
			return c, err
		}
		spec := inventory.Spec{Kind: inventory.Concentrator, Rated: 5, Model: "Still 5", Serial: fmt.Sprintf("JA%010d", n)}
		c.Facts = append(c.Facts,
			inventory.Fact{Item: id, Statement: &inventory.Enrolled{Tag: tag, Spec: spec}},
			inventory.Fact{Item: id, Statement: &inventory.Moved{To: "depot:harbour"}})
	}
	return c, nil
}
