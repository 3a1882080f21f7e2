package settings

import (
	"context"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory/refusal"
	"lungwort/ui/ask"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

const (
	inesWords = "grey harbour lantern moss"
	bramWords = "seven dull copper kettles"
)

func form(t *testing.T, m *Model, id string) ask.Form {
	t.Helper()
	f, ok := m.Form(id)
	require.True(t, ok, id)
	return f
}

// The single desk works without any of it; the page says how it is switched
// on, and a coordinator switches it off again.
func TestSignInIsSwitchedOnAndOff(t *testing.T) {
	d, m := newModel(t)
	goTo(t, m, whoIsThere)
	assert.Contains(t, entry(t, m, signInRow).Says, "off: nobody is asked")
	assert.Contains(t, m.About(), "Open Sign-in to switch it on")

	f := form(t, m, signInRow)
	assert.Equal(t, "desk", f.Answered()["name"], "the first coordinator is whoever sits there")
	assert.ErrorContains(t, answer(t, f, ask.Answers{"name": "Ines Vey", "passphrase": inesWords, "again": bramWords})["again"], "not the same")
	var refused error
	f.Submit(ask.Answers{"name": "Ines Vey", "passphrase": "short", "again": "short"}, func(err error) { refused = err })
	assert.ErrorContains(t, refused, "at least 15 characters")
	access, err := d.Access(context.Background())
	require.NoError(t, err)
	assert.Equal(t, delivery.Access{}, access, "what was refused wrote nothing")

	assert.Empty(t, answer(t, f, ask.Answers{"name": "Ines Vey", "passphrase": inesWords, "again": inesWords}))
	assert.Equal(t, 1, d.Left, "the desk is left: whoever goes on signs in")
	require.NoError(t, d.SignIn(context.Background(), "Ines Vey", inesWords))
	m.Load()
	assert.Contains(t, entry(t, m, signInRow).Says, "on: name and passphrase")
	assert.Contains(t, entry(t, m, userRow+"Ines Vey").Says, "coordinator")

	assert.Empty(t, answer(t, form(t, m, signInRow), nil))
	assert.Contains(t, entry(t, m, signInRow).Says, "off:")
	assert.Contains(t, form(t, m, signInRow).Title, "Ask for name", "it can be switched on again, without another coordinator")
	assert.Empty(t, form(t, m, signInRow).Fields)
}

func TestUsersAreAddedAndChanged(t *testing.T) {
	d, m := newModel(t)
	goTo(t, m, whoIsThere)
	answer(t, form(t, m, signInRow), ask.Answers{"name": "Ines Vey", "passphrase": inesWords, "again": inesWords})
	require.NoError(t, d.SignIn(context.Background(), "Ines Vey", inesWords))
	assert.Equal(t, []string{aUser}, m.Adds())
	fresh, ok := m.NewRow(aUser)
	require.True(t, ok)
	assert.Empty(t, answer(t, fresh, ask.Answers{"name": "Bram", "role": "warehouse", "passphrase": bramWords, "again": bramWords}))
	assert.Equal(t, "warehouse", entry(t, m, userRow+"Bram").Says)

	for range 3 {
		require.Error(t, d.SignIn(context.Background(), "Bram", "no words of his"))
	}
	m.Load()
	assert.Contains(t, entry(t, m, userRow+"Bram").Says, "3 failed sign-ins, the last Tue 5 Mar 16:20")

	assert.ErrorContains(t, answer(t, form(t, m, userRow+"Bram"), nil)["role"], "nothing is changed")
	assert.Empty(t, answer(t, form(t, m, userRow+"Bram"), ask.Answers{"role": "on call", "passphrase": bramWords, "again": bramWords}))
	assert.Contains(t, entry(t, m, userRow+"Bram").Says, "on call")
	require.NoError(t, d.SignIn(context.Background(), "Bram", bramWords), "a new passphrase ends the waiting")
	require.NoError(t, d.SignIn(context.Background(), "Ines Vey", inesWords))
	assert.Empty(t, answer(t, form(t, m, userRow+"Bram"), ask.Answers{"role": off}))
	assert.Equal(t, "works in the book no more", entry(t, m, userRow+"Bram").Says)
	var refused error
	form(t, m, userRow+"Ines Vey").Submit(ask.Answers{"role": off}, func(err error) { refused = err })
	assert.Contains(t, refusal.For(refused), "only coordinator")
}

// The table of roles is printed where users are.
func TestRolesAreToldOnThePage(t *testing.T) {
	_, m := newModel(t)
	goTo(t, m, whoIsThere)
	assert.Contains(t, entry(t, m, roleRow+"warehouse").Says, "a home by its number")
	assert.Equal(t, "does the depot; things on the move; what anybody may see on a thing; one's own", entry(t, m, roleRow+"warehouse").Default)
	assert.Equal(t, "writes nothing", entry(t, m, roleRow+"read-only").Default)
	whole := form(t, m, roleRow+"on call")
	assert.Contains(t, whole.Before, "orders given by phone")
	assert.Empty(t, answer(t, whole, nil))
}

func TestMinutesUntilTheLock(t *testing.T) {
	_, m := newModel(t)
	goTo(t, m, whoIsThere)
	assert.Equal(t, "10 min", entry(t, m, "lock_after").Says)
	for _, text := range []string{"0", "-5 min", "soon", "600 min", ""} {
		assert.Error(t, change(t, m, "lock_after", text)["lock_after"], text)
	}
	assert.Empty(t, change(t, m, "lock_after", "5 min"))
	m.Save()
	assert.Equal(t, 5*time.Minute, m.inForce.LockWait())
}

func TestUsersPageIsDrawn(t *testing.T) {
	d := uitest.New(t)
	v := New(d.Work)
	v.Open(work.Target{})
	goTo(t, v.model, whoIsThere)
	answer(t, form(t, v.model, signInRow), ask.Answers{"name": "Ines Vey", "passphrase": inesWords, "again": inesWords})
	require.NoError(t, d.SignIn(context.Background(), "Ines Vey", inesWords))
	v.model.Load()
	win := uitest.Show(t, v)
	for i, page := range v.model.Pages() {
		if page.Name == whoIsThere {
			v.pages.Take(strconv.Itoa(i))
		}
	}
	uitest.Shoot(t, win, "settings-users")
	v.change(signInRow)
	uitest.Shoot(t, win, "settings-signin")
	assert.NotZero(t, v.entries.Len())
}
