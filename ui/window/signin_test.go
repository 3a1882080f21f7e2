package window

import (
	"context"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/ui/uitest"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

const (
	inesWords = "grey harbour lantern moss"
	bramWords = "seven dull copper kettles"
)

// asking makes a book that asks for names: Ines Vey is coordinator, Bram works
// in the warehouse. Senna Abara is in it.
func asking(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "b.lungwort")
	b, err := book.Create(context.Background(), path, book.Options{Now: func() time.Time { return uitest.Now }, Sets: store.Migrations()})
	require.NoError(t, err)
	desk := store.NewDesk(b)
	for _, act := range []delivery.Act{
		delivery.Settings{Programme: uitest.Programme()},
		delivery.Register{Person: delivery.Person{Family: "Abara", Given: "Senna", Phones: []delivery.Phone{{Number: "555-0177"}}}, Address: delivery.Address{Street: "Gull Row 14"}},
		delivery.AddUser{Name: "Ines Vey", Role: delivery.AsCoordinator, Passphrase: inesWords},
		delivery.AddUser{Name: "Bram", Role: delivery.AsWarehouse, Passphrase: bramWords},
		delivery.SignInOn{},
	} {
		_, err := desk.Do(context.Background(), store.Hand{By: "desk", Source: inventory.Keyed, At: uitest.Now}, act)
		require.NoError(t, err)
	}
	require.NoError(t, b.Close())
	return path
}

// signIn writes name and passphrase into the card in sight, by keys.
func signIn(p *program, name, text string) {
	fields := inputs(p.window)
	fields[0].SetText(name)
	p.window.Canvas().Focus(fields[1])
	uitest.Type(p.window, text)
	uitest.Press(p.window, fyne.KeyReturn)
}

func inputs(win fyne.Window) (list []*widgets.Text) {
	for _, o := range within(win.Content()) {
		if in, ok := o.(*widgets.Text); ok {
			list = append(list, in)
		}
	}
	return list
}

func TestTheWindowAsksWhoIsThere(t *testing.T) {
	p := launch(t, asking(t))
	assert.Nil(t, p.frame)
	assert.Contains(t, words(p.window), "Who is at the desk?")
	uitest.Shoot(t, p.window, "signin")
	signIn(p, "Ines Vey", "not her passphrase")
	assert.Contains(t, words(p.window), "don't fit")
	assert.Nil(t, p.frame, "nothing is shown")
	for _, m := range p.window.MainMenu().Items {
		for _, i := range m.Items {
			if i.Action != nil {
				i.Action() // no key reaches past the card
			}
		}
	}
	assert.Nil(t, p.frame)
	signIn(p, "ines vey", inesWords)
	require.NotNil(t, p.frame)
	assert.Equal(t, work.Needs, p.frame.here.Room)
	assert.Equal(t, "Ines Vey", p.frame.work.Hand(inventory.Keyed).By)
	assert.True(t, strings.HasPrefix(p.frame.clock.Text, "Ines Vey"))
	assert.Empty(t, p.window.Title(), "the title is set once, and names nobody")
}

// The window of a role has its screens and no others, whichever way leads to
// them.
func TestEachRoleHasItsScreens(t *testing.T) {
	p := launch(t, asking(t))
	signIn(p, "Bram", bramWords)
	require.NotNil(t, p.frame)
	assert.Equal(t, work.Items, p.frame.here.Room, "the first of its screens")
	p.frame.Open(work.Target{Room: work.Homes})
	assert.Equal(t, work.Items, p.frame.here.Room)
	assert.Contains(t, words(p.window), "which has no such screen")
	ids := map[string]bool{}
	for _, e := range p.frame.entries(nil) {
		ids[e.ID] = true
	}
	assert.True(t, ids["bench"] && !ids["homes"] && !ids["settings"], ids)
	for _, m := range p.window.MainMenu().Items[0].Items {
		assert.NotEqual(t, "Homes", m.Label)
	}
	for _, role := range delivery.Roles() {
		some := false
		for _, n := range names {
			some = some || work.Has(role, n.room)
		}
		assert.True(t, some, "%s has a screen", role)
	}
}

// The lock covers everything, keeps what was typed, and lets back whoever
// locked it; somebody else comes to a window of their own.
func TestLockKeepsTheTyping(t *testing.T) {
	now := uitest.Now
	p := launch(t, asking(t))
	p.setting.Now = func() time.Time { return now }
	signIn(p, "Ines Vey", inesWords)
	p.frame.Open(work.Target{Room: work.Discharge})
	p.window.Canvas().Focus(inputs(p.window)[0])
	uitest.Type(p.window, "Tamsin")
	typed := inputs(p.window)[0]
	p.askPast()
	require.NotNil(t, p.window.Canvas().Overlays().Top())

	now = now.Add(9 * time.Minute)
	p.minute()
	assert.Nil(t, p.locked, "ten minutes unless the programme says otherwise")
	p.window.Content().(desktop.Hoverable).MouseMoved(nil)
	now = now.Add(9 * time.Minute)
	p.minute()
	assert.Nil(t, p.locked, "the pointer moved")
	now = now.Add(time.Minute)
	p.minute()
	require.NotNil(t, p.locked)
	assert.NotContains(t, words(p.window), "Tamsin")
	assert.Nil(t, p.window.Canvas().Overlays().Top(), "no question stays open over it")
	assert.Contains(t, words(p.window), "Locked")
	uitest.Shoot(t, p.window, "locked")
	uitest.Press(p.window, fyne.KeyF12, fyne.KeyEscape)
	require.NotNil(t, p.locked)

	signIn(p, "Ines Vey", "a wrong set of words")
	require.NotNil(t, p.locked)
	signIn(p, "Ines Vey", inesWords)
	require.Nil(t, p.locked)
	assert.Equal(t, "Tamsin", typed.Text)
	assert.NotNil(t, p.window.Canvas().Overlays().Top(), "the question is open again")
	assert.Equal(t, work.Discharge, p.frame.here.Room)
	uitest.Press(p.window, fyne.KeyEscape)

	p.lock()
	press(t, p.window, "Somebody else")
	assert.Nil(t, p.frame)
	_, signedIn := p.desk.User()
	assert.False(t, signedIn)
	signIn(p, "Bram", bramWords)
	assert.Equal(t, work.Items, p.frame.here.Room)
	assert.NotContains(t, words(p.window), "Tamsin")
}

// F12 hides who people are on every screen, and the desk remembers it.
func TestPrivacyView(t *testing.T) {
	path := asking(t)
	p := launch(t, path)
	signIn(p, "Ines Vey", inesWords)
	p.frame.Open(work.Target{Room: work.Homes})
	shown := func() string {
		homes, err := veiledHomes(p)
		require.NoError(t, err)
		return homes
	}
	assert.Contains(t, shown(), "Abara")
	uitest.Press(p.window, fyne.KeyF12)
	assert.True(t, p.frame.work.Veil)
	assert.NotContains(t, shown(), "Abara")
	assert.NotContains(t, shown(), "Gull Row")
	assert.NotContains(t, shown(), "555-0177")
	assert.Contains(t, p.frame.clock.Text, "names hidden")
	assert.True(t, p.app.Preferences().Bool(veiled))
	uitest.Press(p.window, fyne.KeyF12)
	assert.Contains(t, shown(), "Abara")
	assert.False(t, p.app.Preferences().Bool(veiled))
}

// veiledHomes is what a screen would read of the homes now.
func veiledHomes(p *program) (text string, err error) {
	work.Ask(p.frame.work, "test", func(ctx context.Context) ([]store.Found, error) {
		return p.desk.Homes(ctx, "", 10)
	}, func(found []store.Found) {
		for _, f := range found {
			text += f.Person.Name() + f.Address.Where()
			for _, ph := range f.Person.Phones {
				text += ph.Number
			}
		}
	})
	return text, err
}

// Without sign-in nothing locks, and the menu says how it is switched on.
func TestASingleDeskNeedsNoName(t *testing.T) {
	p := launch(t, filepath.Join(t.TempDir(), "b.lungwort"))
	press(t, p.window, "New programme")
	require.NotNil(t, p.frame)
	p.lastUse = uitest.Now.Add(-24 * time.Hour)
	p.minute()
	assert.Nil(t, p.locked)
	p.lock()
	assert.Nil(t, p.locked)
	assert.Contains(t, words(p.window), "Settings, Who is at the desk")
	assert.Equal(t, "desk", p.frame.work.By)
}

func TestOwnPassphrase(t *testing.T) {
	p := launch(t, asking(t))
	signIn(p, "Bram", bramWords)
	user, _ := p.desk.User()
	var told error
	p.changePassphrase(user, "not this one at all", "a new set of dull words", func(err error) { told = err })
	assert.ErrorContains(t, told, "don't fit")
	p.changePassphrase(user, bramWords, "a new set of dull words", func(err error) { told = err })
	require.NoError(t, told)
	assert.NoError(t, p.desk.SignIn(context.Background(), "Bram", "a new set of dull words"))
}
