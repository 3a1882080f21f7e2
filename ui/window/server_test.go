package window

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
	"lungwort/inventory/refusal"
	"lungwort/ui/ask"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

func TestMain(m *testing.M) {
	if dir := os.Getenv(crashesIn); dir != "" {
		meetFault(dir)
	}
	os.Exit(booktest.Serving{M: m}.Run())
}

// answer answers a form and returns the refusal it met.
func answer(t *testing.T, form ask.Form, a ask.Answers) (refused error) {
	t.Helper()
	closed := false
	wrong := form.Submit(form.Answered().With(a), func(err error) { closed, refused = true, err })
	require.Empty(t, wrong)
	require.True(t, closed)
	return refused
}

func TestABookOnAServerIsChosenAndRemembered(t *testing.T) {
	for _, name := range []string{"XDG_CONFIG_HOME", "HOME", "AppData"} {
		t.Setenv(name, t.TempDir())
	}
	const secret = "hush-hush"
	s, authority, err := booktest.NewSecureServer("localhost")
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, s.Remove()) })
	s.Run(t, "postgres", "CREATE ROLE ines LOGIN PASSWORD '"+secret+"'", "CREATE DATABASE lungwort OWNER ines")

	p := launch(t, filepath.Join(t.TempDir(), "book.lungwort"))
	p.askServer(context.Background())
	uitest.Shoot(t, p.window, "server")
	where := ask.Answers{"server": fmt.Sprint("localhost:", s.Port()), "user": "ines", "authority": authority}
	err = answer(t, p.serverForm(context.Background()), where.With(ask.Answers{"password": "wrong-" + secret}))
	assert.Equal(t, refusal.Locked, refusal.KindOf(err), "%v", err)
	assert.NotContains(t, err.Error(), secret)
	require.NoError(t, answer(t, p.serverForm(context.Background()), where.With(ask.Answers{"password": secret})))
	assert.Contains(t, words(p.window), "There is no book yet")
	assert.NotContains(t, words(p.window), secret)
	press(t, p.window, "New programme")
	require.NotNil(t, p.frame)
	assert.Equal(t, work.Settings, p.frame.here.Room)

	// The next start finds it, and asks for the password, which was kept nowhere.
	remembered, err := book.DefaultPath()
	require.NoError(t, err)
	assert.Contains(t, remembered, "postgres://ines@localhost")
	assert.NotContains(t, remembered, secret)
	next := launch(t, remembered)
	require.Nil(t, next.frame)
	assert.Contains(t, words(next.window), "did not let ines in")
	uitest.Shoot(t, next.window, "locked")
	require.NoError(t, answer(t, next.passwordForm(context.Background()), ask.Answers{"password": secret}))
	require.NotNil(t, next.frame)

	// And back to this machine's own.
	last := launch(t, remembered)
	press(t, last.window, "The book of this machine")
	assert.Contains(t, words(last.window), "There is no book yet")
	own, err := book.DefaultPath()
	require.NoError(t, err)
	assert.Equal(t, "book.lungwort", filepath.Base(own))
}
