package intake_test

import (
	"context"
	"fmt"
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/intake"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
	"lungwort/inventory/sheet"
	items "lungwort/inventory/store"
)

// desk is a desk on a fresh book, as lists are taken in at.
type pageOf = store.PersonPage

type desk struct {
	*store.Desk
	t  testing.TB
	at time.Time
}

func newDesk(t testing.TB) *desk {
	t.Helper()
	d := &desk{store.NewDesk(booktest.New(t, store.Migrations()...)), t, time.Date(2025, time.April, 2, 9, 0, 0, 0, time.FixedZone("", -3*3600))}
	p := delivery.NewProgramme()
	p.Depots = []delivery.Site{{Name: "harbour", Title: "Harbour depot"}}
	p.Plants = []delivery.Site{{Name: "skerry", Title: "Skerry gas works"}}
	p.Vehicles = []delivery.Vehicle{{Name: "van 1", Depot: "harbour", Pieces: 30, Kg: 200, From: "08:00", Until: "20:00"}}
	_, err := d.Do(context.Background(), d.hand(), delivery.Settings{Programme: p})
	require.NoError(t, err)
	return d
}

func (d *desk) hand() store.Hand {
	return store.Hand{By: "tester", Source: inventory.Sheet, At: d.at}
}

// read reads lists against the book.
func (d *desk) read(answers intake.Answers, tables ...sheet.Table) intake.Reading {
	d.t.Helper()
	r, err := d.ReadLists(context.Background(), tables, answers, d.at, nil)
	require.NoError(d.t, err)
	require.Equal(d.t, r.Rows, r.Taken+r.Waiting+len(r.Refused)+r.LeftOut, "each row has one fate")
	return r
}

// take reads lists and writes what is clear.
func (d *desk) take(answers intake.Answers, tables ...sheet.Table) intake.Reading {
	d.t.Helper()
	r := d.read(answers, tables...)
	var err error
	r.TookIn, err = d.TakeIn(context.Background(), r, d.hand(), nil)
	require.NoError(d.t, err)
	return r
}

// facts counts the facts of the book.
func (d *desk) facts() (n int) {
	d.t.Helper()
	require.NoError(d.t, d.Book().Read(context.Background(), func(tx *book.Tx) (err error) {
		n, err = items.Count(tx)
		return err
	}))
	return n
}

func (d *desk) audit() {
	d.t.Helper()
	a, err := d.Audit(context.Background())
	require.NoError(d.t, err)
	require.Empty(d.t, a.Mismatches)
}

// table reads one list that is written into the test.
func table(t *testing.T, name, text string) sheet.Table {
	t.Helper()
	tables, err := sheet.Read(context.Background(), name, []byte(text))
	require.NoError(t, err)
	require.Len(t, tables, 1)
	return tables[0]
}

func dump(r intake.Reading) {
	if os.Getenv("SHOW") == "" {
		return
	}
	fmt.Println(r.Rows, r.Taken, r.Waiting, len(r.Refused), r.LeftOut, r.Added)
	for _, c := range r.Columns {
		fmt.Println("  col", c)
	}
	for _, q := range r.Questions {
		fmt.Println("  ask", q.Key, "|", q.Asks, q.Examples, q.Rows)
		for _, c := range q.Choices {
			fmt.Println("       -", c.Value, "--", c.Says)
		}
	}
	for _, x := range r.Refused {
		fmt.Println("  no ", x.Row, x.Why)
	}
	for _, x := range r.Findings {
		fmt.Println("  find", x)
	}
	for _, x := range r.Notices {
		fmt.Println("  note", x)
	}
	for _, x := range r.People {
		fmt.Println("  who", x)
	}
}

func readText(name, text string) ([]sheet.Table, error) {
	return sheet.Read(context.Background(), name, []byte(text))
}

// readAlone reads a list against an empty book.
func readAlone(list sheet.Table, p delivery.Programme, answers intake.Answers) (intake.Reading, error) {
	at := time.Date(2025, time.April, 2, 9, 0, 0, 0, time.UTC)
	return intake.Read(context.Background(), []sheet.Table{list}, intake.Known{}, p, answers, at, nil)
}
