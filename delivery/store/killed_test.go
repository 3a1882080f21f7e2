package store_test

import (
	"bufio"
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
	"lungwort/inventory/gas"
	items "lungwort/inventory/store"
)

var kills = flag.Int("kills", 12, "how often the writer is killed")

// writesTo names the book that this program, started anew, writes acts into
// until it is killed.
const writesTo = "LUNGWORT_TEST_WRITES_TO"

// writeUntilKilled enrols things one after another, and tells each act's first
// and last fact once the act is acknowledged.
func writeUntilKilled(path string) error {
	ctx := context.Background()
	b, err := book.Open(ctx, path, options())
	if err != nil {
		return err
	}
	d := store.NewDesk(b)
	facts, err := d.Facts(ctx, items.About{})
	if err != nil {
		return err
	}
	for n := len(facts); ; n++ {
		out, err := d.Do(ctx, store.Hand{By: "desk", Source: inventory.Scanned, At: booktest.Start}, delivery.Enrol{
			Spec:  inventory.Spec{Kind: inventory.Cylinder, Size: "US-E", Serial: fmt.Sprintf("K-%06d", n)},
			Depot: "harbour", Gauge: new(gas.PSI(2000)), Lot: "L1", Cleared: true,
		})
		if err != nil {
			return err
		}
		fmt.Println(out.Facts[0].ID, out.Facts[len(out.Facts)-1].ID)
	}
}

// TestKilledAtAnyMoment kills the writer at random moments. Every act it was
// told is done is there, none is half there, and the audit is clean.
func TestKilledAtAnyMoment(t *testing.T) {
	path := filepath.Join(t.TempDir(), "b.lungwort")
	b, err := book.Create(context.Background(), path, options())
	require.NoError(t, err)
	(&desk{store.NewDesk(b), t, booktest.Start}).do(delivery.Settings{Programme: oneDepot()})
	require.NoError(t, b.Close())
	dice := rand.New(rand.NewPCG(9, 9))
	acknowledged := inventory.FactID(0)
	for range *kills {
		acknowledged = max(acknowledged, killWriter(t, path, dice))
		wantWhole(t, path, acknowledged)
	}
	assert.Greater(t, acknowledged, inventory.FactID(*kills), "acts were acknowledged before the kills")
}

// killWriter starts the writer, kills it some acts later at no particular
// moment, and returns the last fact that was acknowledged.
func killWriter(t *testing.T, path string, dice *rand.Rand) (last inventory.FactID) {
	t.Helper()
	writer := exec.Command(os.Args[0])
	writer.Env, writer.Stderr = append(os.Environ(), writesTo+"="+path), os.Stderr
	out, err := writer.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, writer.Start())
	lines := bufio.NewScanner(out)
	for range 1 + dice.IntN(5) {
		require.True(t, lines.Scan(), "the writer writes on")
		_, err := fmt.Sscan(lines.Text(), new(inventory.FactID), &last)
		require.NoError(t, err)
	}
	for range dice.IntN(3_000_000) { // into the act after
		last += 0
	}
	require.NoError(t, writer.Process.Kill())
	for lines.Scan() { // what was told before the kill came through
		if _, err := fmt.Sscan(lines.Text(), new(inventory.FactID), &last); err != nil {
			break // half a line
		}
	}
	require.Error(t, writer.Wait())
	return last
}

func wantWhole(t *testing.T, path string, acknowledged inventory.FactID) {
	t.Helper()
	ctx := context.Background()
	b, err := book.Open(ctx, path, options())
	require.NoError(t, err)
	defer b.Close()
	d := store.NewDesk(b)
	facts, err := d.Facts(ctx, items.About{})
	require.NoError(t, err)
	assert.GreaterOrEqual(t, facts[len(facts)-1].ID, acknowledged, "an acknowledged act is gone")
	about := make(map[inventory.ItemID]int)
	for i, f := range facts {
		require.Equal(t, inventory.FactID(i+1), f.ID, "a fact is missing between others")
		if f.Item != "" {
			about[f.Item]++
		}
	}
	whole := about["i000001"]
	for item, n := range about {
		assert.Equal(t, whole, n, "half an act about %s", item)
	}
	audit, err := d.Audit(ctx)
	require.NoError(t, err)
	assert.Empty(t, audit.Mismatches)
	assert.NoError(t, b.Check(ctx))
}
