//go:build realwindow

package realwindow

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lungwort/inventory/book/booktest"
)

// TestTwoDesksInTwoWindows: two windows on one book of a server. What the one
// does the other shows by itself; of two that take the same machine back one does,
// and the other is told and keeps what was typed.
func TestTwoDesksInTwoWindows(t *testing.T) {
	server, err := booktest.NewServer()
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, server.Remove()) })
	one := demo(t)
	shared := server.URL(server.Empty(t))
	one.command("copy", "--from", one.book, "--to", shared)
	one.book = shared
	other := &screen{t: t, program: one.program, book: shared}
	one.open()
	other.open()
	other.settle()
	other.keep("31-other-before.png")

	before, _ := other.picture()
	one.discharge()
	one.until("the person is on the watch list", func() bool { return one.watched() != nil })
	other.until("the other desk shows it by itself", func() bool {
		now, _ := other.picture()
		return now != nil && changed(squares(now), squares(before)) > cursorSquares
	})
	other.settle()
	other.keep("32-other-shows.png")

	machine := one.rows("items", "Kind", "concentrator", "State", "not needed")[0]["Serial"]
	for _, s := range []*screen{one, other} {
		s.key("ctrl+6")
		s.settle()
		s.scan(machine)
		s.settle()
		s.typed("20100")
		s.key("Return") // the keyboard goes to what is missing: at which depot?
		s.settle()
		s.key("h")
		s.settle()
	}
	one.key("Return")
	one.until("the machine is in the dirty bay", func() bool { return len(one.rows("items", "Serial", machine, "State", "dirty")) == 1 })
	other.settle()
	other.keep("33-other-first.png")
	other.key("Return")
	other.settle()
	other.keep("34-other-told.png")
	one.keep("35-one.png")
	require.Contains(t, one.command("audit", "--book", shared), " 0 mismatches")
}
