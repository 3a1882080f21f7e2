//go:build realwindow

package realwindow

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
)

// pallet is how many things the scripted scanner scans.
const pallet = 200

// TestAPalletIsReceivedByScan scans a pallet of new regulators into the window
// as fast as a scanner does: none is lost, none is taken twice.
func TestAPalletIsReceivedByScan(t *testing.T) {
	s := start(t)
	s.key("ctrl+8") // Receive
	s.settle()
	s.key("3") // regulators
	s.key("ctrl+f")
	for n := range pallet {
		s.scan(fmt.Sprintf("RP-%05d", n))
		if n == pallet/2 {
			s.keep("7-receive.png")
		}
	}
	s.until("the pallet is in the book", func() bool {
		return len(s.rows("items", "Kind", "regulator", "State", "quarantine")) >= pallet
	})
	serials := map[string]int{}
	for _, row := range s.rows("items", "Kind", "regulator", "State", "quarantine") {
		serials[row["Serial"]]++
	}
	for n := range pallet {
		require.Equal(t, 1, serials[fmt.Sprintf("RP-%05d", n)], "RP-%05d", n)
	}
	s.settle()
	s.keep("8-received.png")
	require.Contains(t, s.command("audit", "--book", s.book), " 0 mismatches")
}
