// Package uitest is one desk for the tests of all screens: a small programme
// on the Quillet Isles with a dozen persons and forty items in every phase and
// state, at a fixed time. Everything in it is invented.
package uitest

import (
	"context"
	"errors"
	"fmt"
	"testing"
	"time"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/book/booktest"
	"lungwort/inventory/refusal"
	"lungwort/ui/look"
	"lungwort/ui/runner"
	"lungwort/ui/work"
)

// Zone is the clock on the wall of the Quillet Isles.
var Zone = time.FixedZone("", -3*60*60)

// Now is when every desk of this package stands: a Tuesday afternoon.
var Now = time.Date(2030, time.March, 5, 16, 20, 0, 0, Zone)

// Desk is a desk with its story told, and what a screen on it did.
type Desk struct {
	*store.Desk
	*work.Work

	Persons map[string]inventory.PersonID // by given name
	Things  map[string]inventory.ItemID   // by serial
	Run     inventory.RunID               // van 1, out now

	Opened  []work.Target // where the screen went
	Said    []string      // what was told as done
	Offered func()        // the step last offered
	Fields  int           // how often the keyboard was sent to the field on top
	Scans   []work.Scan   // what was told large
	Refused []error
	Shown   []string // files opened in the viewer
	Changes int
	Left    int // how often the desk was left to the next

	t     testing.TB
	clock *booktest.Clock
	now   time.Time
}

// NewEmpty returns a desk on a fresh book with the programme's settings and
// nothing else.
func NewEmpty(t testing.TB) *Desk {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(look.New(look.Light))
	d := &Desk{
		Persons: map[string]inventory.PersonID{}, Things: map[string]inventory.ItemID{},
		t: t, clock: booktest.NewClock(),
	}
	d.Desk = store.NewDesk(booktest.NewAt(t, d.clock, store.Migrations()...))
	d.Work = &work.Work{
		Desk:    d.Desk,
		Run:     runner.Inline{},
		Now:     func() time.Time { return d.now },
		By:      "desk",
		Dir:     t.TempDir(),
		Open:    func(to work.Target) { d.Opened = append(d.Opened, to) },
		Say:     func(text string) { d.Said = append(d.Said, text) },
		Field:   func() { d.Fields++ },
		Offer:   func(text, _ string, do func()) { d.Said, d.Offered = append(d.Said, text), do },
		Scanned: func(s work.Scan) { d.Scans = append(d.Scans, s) },
		Refuse:  func(err error) { d.Refused = append(d.Refused, err) },
		Show:    func(file string) { d.Shown = append(d.Shown, file) },
		Leave:   func() { d.Left++ },
		Changed: func() { d.Changes++ },
	}
	d.At(Now.AddDate(0, 0, -30))
	d.Act(delivery.Settings{Programme: Programme()})
	d.At(Now)
	return d
}

// New returns a desk whose whole story has been told, at Now.
func New(t testing.TB) *Desk {
	t.Helper()
	d := NewEmpty(t)
	d.tell()
	d.At(Now)
	return d
}

// At sets the clock of the desk and of its book.
func (d *Desk) At(now time.Time) {
	d.now = now
	d.clock.Set(now)
}

// Day sets the clock to a time of the day so many days from today: Day(-2,
// "09:30").
func (d *Desk) Day(days int, clock string) {
	d.t.Helper()
	t, err := time.ParseInLocation("15:04", clock, Zone)
	require.NoError(d.t, err)
	day := Now.AddDate(0, 0, days)
	d.At(time.Date(day.Year(), day.Month(), day.Day(), t.Hour(), t.Minute(), 0, 0, Zone))
}

// Act does an act at the desk's time; the test fails when it is refused.
func (d *Desk) Act(act delivery.Act) store.Outcome { return d.ActFrom(inventory.Keyed, act) }

// ActFrom is Act with the source of what is written.
func (d *Desk) ActFrom(source inventory.Source, act delivery.Act) store.Outcome {
	d.t.Helper()
	out, err := d.Desk.Do(context.Background(), store.Hand{By: "desk", Source: source, At: d.now}, act)
	require.NoError(d.t, err, "%T at %s", act, d.now)
	return out
}

// Page returns the page of a person of the story.
func (d *Desk) Page(given string) store.PersonPage {
	d.t.Helper()
	page, err := d.Desk.Page(context.Background(), d.Persons[given], d.now)
	require.NoError(d.t, err)
	return page
}

// Thing returns an item of the story as it stands.
func (d *Desk) Thing(serial string) inventory.Item {
	d.t.Helper()
	item, err := d.Desk.Item(context.Background(), serial, 0)
	require.NoError(d.t, err)
	return item
}

// Refusal returns the last refusal a screen met; the test fails when there was
// none.
func (d *Desk) Refusal() *refusal.Error {
	d.t.Helper()
	var no *refusal.Error
	require.NotEmpty(d.t, d.Refused, "nothing was refused")
	last := d.Refused[len(d.Refused)-1]
	require.True(d.t, errors.As(last, &no), fmt.Sprint(last))
	return no
}

// Clean fails the test when anything was refused or a derived state differs
// from its facts.
func (d *Desk) Clean() {
	d.t.Helper()
	require.Empty(d.t, d.Refused)
	audit, err := d.Audit(context.Background())
	require.NoError(d.t, err)
	require.Empty(d.t, audit.Mismatches)
}
