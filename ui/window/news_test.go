package window

import (
	"context"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/refusal"
	"lungwort/ui/uitest"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// rereader is a screen that can be read anew.
type rereader struct {
	*stub
	times int
}

func (r *rereader) Reread() { r.times++ }

func TestWhatOthersWroteIsTakenUpWhereNothingIsTyped(t *testing.T) {
	s := newStage(t)
	homes := &rereader{stub: s.stubs[work.Homes]}
	s.rooms[work.Homes] = homes
	s.Frame.Open(work.Target{Room: work.Homes})
	opened := len(homes.opened)
	s.Reread()
	assert.Equal(t, 1, homes.times)
	assert.Len(t, homes.opened, opened, "the screen is not opened anew")

	s.Frame.Open(work.Target{Room: work.Discharge})
	form := s.stubs[work.Discharge]
	form.entry.SetText("half a name")
	opened = len(form.opened)
	s.Reread()
	assert.Len(t, form.opened, opened)
	assert.Equal(t, "half a name", form.entry.Text, "a form is left alone")
}

// Hiding names loses nothing that is typed; what is a list hides them at once.
func TestHidingNamesKeepsWhatIsTyped(t *testing.T) {
	s := newStage(t)
	s.Frame.Open(work.Target{Room: work.Discharge})
	form := s.stubs[work.Discharge]
	form.entry.SetText("half a name")
	opened := len(form.opened)
	s.work.Veil = true
	s.Veiled()
	assert.Len(t, form.opened, opened)
	assert.Equal(t, "half a name", form.entry.Text)

	homes := &rereader{stub: s.stubs[work.Homes]}
	s.rooms[work.Homes] = homes
	s.Frame.Open(work.Target{Room: work.Homes})
	s.Veiled()
	assert.Equal(t, 1, homes.times)
}

func TestALostBookIsToldWithTheAgeOfWhatIsShown(t *testing.T) {
	s := newStage(t)
	why := refusal.New(refusal.Unreachable, "The book lungwort on db.example can't be reached.", "Check the network and the server; nothing was written.")
	s.desk.At(uitest.Now.Add(3 * time.Minute))
	s.Lose(why)
	require.True(t, s.band.Visible())
	uitest.Shoot(t, s.win, "lost")
	for _, part := range []string{why.Says, "Since 16:23 nothing can be entered", "as of 16:20, 3 min old"} {
		assert.Contains(t, s.says.Text, part)
	}
	opened := len(s.stubs[work.Needs].opened)
	s.desk.At(uitest.Now.Add(65 * time.Minute))
	s.Tick()
	assert.Contains(t, s.says.Text, "as of 16:20, 1 h 05 min old")
	assert.Len(t, s.stubs[work.Needs].opened, opened, "what is shown stays")
	assert.Equal(t, "Tue 5 Mar 17:25", s.clock.Text)

	s.Regain()
	assert.False(t, s.band.Visible())
	s.Lose(refusal.New(refusal.Newer, "A newer version wrote it.", "Install it here."))
	assert.Contains(t, s.says.Text, "A newer version wrote it. Install it here.")
	assert.Contains(t, s.says.Text, "as of 17:25, less than a minute old")
}

// A clock that was set back is told until it is right again; nobody is kept
// from acting.
func TestAClockSetBackIsToldUntilItIsRight(t *testing.T) {
	s := newStage(t)
	assert.False(t, s.band.Visible())
	s.desk.At(uitest.Now.AddDate(-2, 0, 0))
	s.Tick()
	require.True(t, s.band.Visible())
	assert.Contains(t, s.says.Text, "Set the clock right first")
	s.Lose(refusal.New(refusal.Unreachable, "The book can't be reached.", ""))
	s.Tick()
	assert.Contains(t, s.says.Text, "nothing can be entered")
	s.Regain()
	assert.Contains(t, s.says.Text, "Set the clock right first", "once the book is back the clock is told again")
	s.desk.At(uitest.Now)
	s.Tick()
	assert.False(t, s.band.Visible())
}

// What another desk writes is on this one's list at once, and the row in hand
// stays in hand.
func TestAChangeOfAnotherDeskDoesNotMoveTheRowInHand(t *testing.T) {
	p := launch(t, filepath.Join(t.TempDir(), "book.lungwort"))
	press(t, p.window, "New programme")
	desk := p.frame.work.Desk
	act := func(act delivery.Act) {
		_, err := desk.Do(context.Background(), p.frame.work.Hand(inventory.Keyed), act)
		require.NoError(t, err)
	}
	programme := uitest.Programme()
	act(delivery.Settings{Programme: programme})
	for _, family := range []string{"Marsh", "Vale"} {
		act(delivery.Register{Person: delivery.Person{Family: family}, Address: delivery.Address{Street: "Kelp Street 22"}})
	}
	p.frame.Open(work.Target{Room: work.Homes})
	rows := list(t, p.window)
	rows.Take("p00002")
	act(delivery.Register{Person: delivery.Person{Family: "Abara"}, Address: delivery.Address{Street: "Kelp Street 22"}})
	assert.Contains(t, words(p.window), "2 persons")
	p.heard(book.Written, nil)
	assert.Contains(t, words(p.window), "3 persons")
	assert.Equal(t, "p00002", rows.InHand())
	p.heard(book.Lost, refusal.New(refusal.Unreachable, "Gone.", ""))
	assert.True(t, p.frame.band.Visible())
	assert.Contains(t, words(p.window), "3 persons")
	p.heard(book.Back, nil)
	assert.False(t, p.frame.band.Visible())
	assert.Equal(t, "p00002", rows.InHand())
}

// list returns the list in sight.
func list(t *testing.T, win fyne.Window) *widgets.Rows {
	t.Helper()
	for _, o := range within(win.Content()) {
		if rows, is := o.(*widgets.Rows); is {
			return rows
		}
	}
	require.Fail(t, "no list")
	return nil
}
