package store_test

import (
	"context"
	"flag"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
	items "lungwort/inventory/store"
)

var (
	lendings = flag.Int("lendings", 60, "how many items several desks want at once")
	workday  = flag.Duration("workday", 0, "how long twenty desks work side by side; 0: a few acts each")
)

// desksAt opens a number of desks, each a program of its own, on one new book
// on a server with a small programme.
func desksAt(t *testing.T, n int) []*store.Desk {
	t.Helper()
	s := booktest.Shared(t)
	address, o := s.URL(s.Empty(t)), book.Options{Now: booktest.NewClock().Now, Sets: store.Migrations()}
	all := make([]*store.Desk, n)
	for i := range all {
		b, err := book.OpenOrCreate(context.Background(), address, o)
		require.NoError(t, err)
		t.Cleanup(func() { assert.NoError(t, b.Close()) })
		all[i] = store.NewDesk(b)
	}
	p := delivery.NewProgramme()
	p.Depots = []delivery.Site{{Name: "harbour", Title: "Harbour depot"}}
	p.Vehicles = []delivery.Vehicle{
		{Name: "van 1", Depot: "harbour", Pieces: 30, Kg: 200, From: "08:00", Until: "20:00"},
		{Name: "van 2", Depot: "harbour", Pieces: 30, Kg: 200, From: "08:00", Until: "20:00"},
	}
	_, err := all[0].Do(context.Background(), by("Ines"), delivery.Settings{Programme: p})
	require.NoError(t, err)
	return all
}

func by(name string) store.Hand {
	return store.Hand{By: name, Source: inventory.Keyed, At: booktest.Start}
}

// stock is an act that brings cylinders and persons into the book.
type stock struct{ cylinders, persons int }

func (s stock) Decide(v delivery.View) (c delivery.Change, err error) {
	add := func(item inventory.ItemID, who inventory.PersonID, s inventory.Statement) {
		c.Facts = append(c.Facts, inventory.Fact{Item: item, Person: who, Statement: s})
	}
	for n := range s.cylinders {
		id, tag, err := v.NewItem()
		if err != nil {
			return c, err
		}
		add(id, "", &inventory.Enrolled{Tag: tag, Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E", Serial: fmt.Sprintf("E-%05d", n)}})
		add(id, "", &inventory.Moved{To: "depot:harbour"})
		add(id, "", &inventory.Observed{Gauge: new(gas.PSI(2000))})
		add(id, "", &inventory.Cleared{Depot: "harbour"})
	}
	for n := range s.persons {
		who, err := v.NewPerson()
		if err != nil {
			return c, err
		}
		c.Persons = append(c.Persons, delivery.Person{ID: who, Family: "Family " + inLetters(n)})
		add("", who, &delivery.Registered{})
	}
	return c, nil
}

// inLetters writes a number as a name.
func inLetters(n int) string {
	return strings.Map(func(digit rune) rune { return digit - '0' + 'a' }, strconv.Itoa(n))
}

// lend is an act that lends one cylinder to one person.
type lend struct {
	item inventory.ItemID
	who  inventory.PersonID
}

func (a lend) Decide(v delivery.View) (delivery.Change, error) {
	item, err := v.Item(a.item)
	if err != nil {
		return delivery.Change{}, err
	}
	if err := delivery.Lendable(v, item, a.who, nil); err != nil {
		return delivery.Change{}, err
	}
	return delivery.Change{Facts: []inventory.Fact{{
		Item: a.item, Person: a.who, Statement: &inventory.Lent{Spec: item.Spec, Role: inventory.Backup, At: "address:a"},
	}}}, nil
}

// Four desks want the same cylinders in the same order. Each goes to exactly
// one; the others are told who was first; what was acknowledged is in the book
// and nothing else is.
func TestNoItemIsLentTwice(t *testing.T) {
	persons := max(100, *lendings/10) // nobody has a whole shelf at home
	desks := desksAt(t, 4)
	out, err := desks[0].Do(context.Background(), by("Ines"), stock{*lendings, persons})
	require.NoError(t, err)
	var things []inventory.ItemID
	for _, f := range out.Facts {
		if _, is := f.Statement.(*inventory.Enrolled); is {
			things = append(things, f.Item)
		}
	}
	acknowledged := make([]map[inventory.FactID]lend, len(desks))
	var together sync.WaitGroup
	for n, desk := range desks {
		acknowledged[n] = map[inventory.FactID]lend{}
		together.Go(func() {
			for i, id := range things {
				act := lend{id, inventory.PersonID(fmt.Sprintf("p%05d", 1+(i*len(desks)+n)%persons))}
				out, err := desk.Do(context.Background(), by(fmt.Sprint("desk ", n)), act)
				if err == nil {
					acknowledged[n][out.Facts[0].ID] = act
					continue
				}
				if !assert.Equal(t, refusal.Unready, refusal.KindOf(err), "%v", err) {
					return
				}
				assert.Regexp(t, `desk \d was first, at 14:00: `, err.Error())
			}
		})
	}
	together.Wait()

	facts, err := desks[0].Facts(context.Background(), items.About{})
	require.NoError(t, err)
	lent := map[inventory.ItemID]int{}
	for _, f := range facts {
		if _, is := f.Statement.(*inventory.Lent); !is {
			continue
		}
		lent[f.Item]++
		whose := slices.IndexFunc(acknowledged, func(acts map[inventory.FactID]lend) bool { return acts[f.ID] == lend{f.Item, f.Person} })
		assert.GreaterOrEqual(t, whose, 0, "fact %d was acknowledged to nobody", f.ID)
	}
	total := 0
	for n := range desks {
		total += len(acknowledged[n])
	}
	assert.Equal(t, len(things), total, "each is lent by one desk")
	assert.Len(t, lent, len(things))
	for id, times := range lent {
		assert.Equal(t, 1, times, id)
	}
	audit, err := desks[1].Audit(context.Background())
	require.NoError(t, err)
	assert.Empty(t, audit.Mismatches)
}

// Two desks move the same stop, and close the same run: one wins, the other is
// told who did what and when.
func TestTwoDesksAtTheSameRun(t *testing.T) {
	ctx, desks := context.Background(), desksAt(t, 2)
	ines, ben := desks[0], desks[1]
	must := func(out store.Outcome, err error) store.Outcome {
		t.Helper()
		require.NoError(t, err)
		return out
	}
	lost := func(err error, says string) {
		t.Helper()
		assert.Equal(t, refusal.Conflict, refusal.KindOf(err), "%v", err)
		assert.ErrorContains(t, err, says)
		assert.ErrorContains(t, err, "Ines was first, at 14:00: ")
	}
	who := must(ines.Do(ctx, by("Ines"), delivery.Register{
		Person: delivery.Person{Family: "Abara"}, Address: delivery.Address{Street: "Gull Row 14"},
	})).Facts[0].Person
	page, err := ines.Page(ctx, who, booktest.Start)
	require.NoError(t, err)
	stop := delivery.PlannedStop{Address: page.Address.ID, Persons: []inventory.PersonID{who}}
	plan := func(id inventory.RunID, vehicle string, stops ...delivery.PlannedStop) delivery.RunPlan {
		return delivery.RunPlan{ID: id, Planned: delivery.Planned{Vehicle: vehicle, Day: "2030-03-04", Stops: stops}}
	}
	seen := func(d *store.Desk) []delivery.Run {
		runs, err := d.Runs(ctx, "")
		require.NoError(t, err)
		return append([]delivery.Run{}, runs...)
	}

	// Both plan the stop that waits.
	first, second := seen(ines), seen(ben)
	out := must(ines.Do(ctx, by("Ines"), delivery.PlanRuns{Runs: []delivery.RunPlan{plan("", "van 1", stop)}, Seen: first}))
	_, err = ben.Do(ctx, by("Ben"), delivery.PlanRuns{Runs: []delivery.RunPlan{plan("", "van 2", stop)}, Seen: second})
	lost(err, "The run of van 1 was changed while you looked.")

	// Both move it to another van; what the second saw is not so any more.
	run := out.Facts[0].Run
	first, second = seen(ines), seen(ben)
	move := []delivery.RunPlan{plan(run, "van 1"), plan("", "van 2", stop)}
	must(ines.Do(ctx, by("Ines"), delivery.PlanRuns{Runs: move, Seen: first}))
	_, err = ben.Do(ctx, by("Ben"), delivery.PlanRuns{Runs: move, Seen: second})
	lost(err, "was changed while you looked.")

	// Both close an empty run.
	out = must(ines.Do(ctx, by("Ines"), delivery.PlanRuns{Runs: []delivery.RunPlan{plan("", "van 1")}}))
	must(ines.Do(ctx, by("Ines"), delivery.EndRun{Run: out.Facts[0].Run}))
	_, err = ben.Do(ctx, by("Ben"), delivery.EndRun{Run: out.Facts[0].Run})
	lost(err, "is closed")
	_, err = ines.Do(ctx, by("Ines"), delivery.EndRun{Run: out.Facts[0].Run})
	assert.NotContains(t, err.Error(), "was first", "nobody else was")
}

// Twenty desks work side by side, one act a second each. With -workday the
// promise is held to: no error, no act lost, 99 of 100 acts within 100 ms.
func TestTwentyDesksWorkSideBySide(t *testing.T) {
	const (
		number = 20
		pace   = time.Second
	)
	desks := desksAt(t, number)
	out, err := desks[0].Do(context.Background(), by("Ines"), stock{20 * number, number})
	require.NoError(t, err)
	var things []inventory.ItemID
	for _, f := range out.Facts {
		if _, is := f.Statement.(*inventory.Enrolled); is {
			things = append(things, f.Item)
		}
	}
	took, wrote := make([][]time.Duration, number), make([]int, number)
	until := time.Now().Add(*workday)
	var together sync.WaitGroup
	for n, desk := range desks {
		together.Go(func() {
			if *workday > 0 {
				<-time.After(pace * time.Duration(n) / number) // people do not press a key all at once
			}
			tick := time.NewTicker(pace)
			defer tick.Stop()
			for i := 0; *workday == 0 && i < 3 || time.Now().Before(until); i++ {
				if *workday > 0 {
					<-tick.C
				}
				act := work(things, n, i)
				begun := time.Now()
				out, err := desk.Do(context.Background(), by(fmt.Sprint("desk ", n)), act)
				took[n] = append(took[n], time.Since(begun))
				if !assert.NoError(t, err, "%T", act) {
					return
				}
				wrote[n] += len(out.Facts)
			}
		})
	}
	together.Wait()
	all := slices.Concat(took...)
	slices.Sort(all)
	p99 := all[len(all)*99/100]
	t.Logf("%d acts of %d desks: half within %v, 99 of 100 within %v, the longest %v", len(all), number, all[len(all)/2], p99, all[len(all)-1])
	if *workday > 0 {
		assert.Less(t, p99, 100*time.Millisecond)
	}
	audit, err := desks[1].Audit(context.Background())
	require.NoError(t, err)
	assert.Empty(t, audit.Mismatches)
	expected := 1 + len(out.Facts)
	for _, n := range wrote {
		expected += n
	}
	assert.Equal(t, expected, audit.Facts, "every act is there, once")
}

// work is the i-th act of a desk: a cylinder of its own is read, now and then
// lent or put elsewhere, and somebody new is entered.
func work(things []inventory.ItemID, desk, i int) delivery.Act {
	own := things[desk*20+i/4%20]
	switch i % 4 {
	case 0:
		return delivery.Read{Item: own, Gauge: new(gas.PSI(1990 - float64(i%500)))}
	case 1:
		return delivery.Register{Person: delivery.Person{Family: fmt.Sprintf("New %d %d", desk, i)}, Address: delivery.Address{Street: fmt.Sprintf("Kelp Street %d", i)}}
	case 2:
		return delivery.Quarantine{Item: own, Why: "valve stiff"}
	}
	return delivery.Read{Item: own, Gauge: new(gas.PSI(1980 - float64(i%500)))}
}
