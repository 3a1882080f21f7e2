//go:build realwindow

package realwindow

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestTheDepotInTheWindow counts a place blind, exchanges cylinders with the
// plant and follows a recall, by the mouse, keys and scans alone, and looks into
// the book after each.
func TestTheDepotInTheWindow(t *testing.T) {
	s := start(t)

	s.click(stocktake)
	s.settle()
	there := s.rows("items", "Place", "depot slipway")
	require.Greater(t, len(there), 2, "something stands there")
	s.click(slipway)
	for _, row := range there[1:] { // one is not found
		s.scan(row["Serial"])
	}
	s.settle()
	s.keep("9-stocktake.png")
	s.key("Escape", "1") // out of the field; finish
	s.settle()
	s.key("ctrl+Return")
	s.settle()
	s.keep("10-counted.png")
	s.key("3") // next step
	s.until("what was not found is missing", func() bool {
		return len(s.rows("items", "Serial", there[0]["Serial"], "Place", "missing")) == 1
	})

	s.click(plant)
	s.settle()
	out := s.rows("items", "Place", "depot harbour", "State", "dirty", "Kind", "cylinder", "Owner", "")
	require.NotEmpty(t, out, "an empty of ours stands there")
	s.key("ctrl+f")
	s.settle()
	s.scan(out[0]["Serial"])
	s.settle()
	s.keep("11-exchange.png")
	s.key("Escape", "6") // sign
	s.settle()
	s.typed("Nils Sayle")
	s.key("ctrl+Return")
	s.until("the empty is at the plant", func() bool {
		return len(s.rows("items", "Serial", out[0]["Serial"], "State", "at plant")) == 1
	})
	s.settle()
	s.keep("12-exchanged.png")

	s.click(recall)
	s.settle()
	s.keep("13-recall.png")
	s.key("1") // search
	s.settle()
	s.typed("Fulmar 10")
	s.key("ctrl+Return")
	s.settle()
	s.keep("14-searched.png")
	s.key("2") // mark
	s.settle()
	s.typed("Q-0900")
	s.key("ctrl+Return")
	s.until("what the notice names is marked", func() bool { return len(s.rows("recalls", "Notice", "Q-0900")) > 0 })
	s.settle()
	s.keep("15-marked.png")
	require.Contains(t, s.command("audit", "--book", s.book), " 0 mismatches")
	s.tellsNobody()
}
