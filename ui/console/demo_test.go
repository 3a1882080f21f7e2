package console_test

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/book"
	items "lungwort/inventory/store"
	"lungwort/ui/console"
)

const (
	afternoon = "2026-11-24T16:20:00-03:00"
	night     = "2027-01-01T00:40:00+05:45"
)

// made returns the bytes of the demo book of a moment; each is made once.
var made = struct {
	sync.Mutex
	books map[string][]byte
}{books: make(map[string][]byte)}

func demoBook(t *testing.T, now string) string {
	t.Helper()
	made.Lock()
	defer made.Unlock()
	path := filepath.Join(t.TempDir(), "quillet.lungwort")
	if made.books[now] == nil {
		makeDemo(t, path, now)
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		made.books[now] = data
		return path
	}
	require.NoError(t, os.WriteFile(path, made.books[now], 0o600))
	return path
}

func makeDemo(t *testing.T, path, now string) {
	t.Helper()
	require.NoError(t, console.MakeDemo(context.Background(), path, moment(t, now)))
}

func moment(t *testing.T, text string) time.Time {
	t.Helper()
	at, err := time.Parse(time.RFC3339, text)
	require.NoError(t, err)
	return at
}

func deskOn(t *testing.T, path string) *store.Desk {
	t.Helper()
	b, err := book.OpenReadOnly(context.Background(), path, book.Options{Sets: store.Migrations()})
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, b.Close()) })
	return store.NewDesk(b)
}

// run runs one command and returns what it printed.
func run(t *testing.T, args ...string) string {
	t.Helper()
	var out, err bytes.Buffer
	p := &console.Program{Out: &out, Err: &err, Now: time.Now, User: "tester"}
	require.Equal(t, console.Done, p.Run(context.Background(), args), "%v: %s", args, err.String())
	return out.String()
}

// TestDemoIsALivingDay: whatever the hour, there are people on the bridge,
// every kind of worry, and stock in every state.
func TestDemoIsALivingDay(t *testing.T) {
	for _, now := range []string{afternoon, night} {
		t.Run(now, func(t *testing.T) {
			ctx := context.Background()
			desk := deskOn(t, demoBook(t, now))
			at := moment(t, now)
			rows, err := desk.Watch(ctx, at)
			require.NoError(t, err)
			assert.InDelta(t, 180, len(rows), 10, "people on oxygen at %s", now)
			verdicts := make(map[depletion.Verdict]int)
			phases := make(map[delivery.Phase]int)
			for _, w := range rows {
				verdicts[w.Verdict]++
			}
			people, err := desk.Homes(ctx, "", 1000)
			require.NoError(t, err)
			for _, f := range people {
				phases[f.Care.Phase]++
			}
			assert.GreaterOrEqual(t, verdicts[depletion.Short], 1)
			assert.GreaterOrEqual(t, verdicts[depletion.Unknown], 2)
			assert.GreaterOrEqual(t, verdicts[depletion.Tight], 3)
			assert.Greater(t, verdicts[depletion.Holds], 150)
			assert.Zero(t, verdicts[depletion.Dry])
			assert.Equal(t, 5, phases[delivery.OnBridge])
			assert.Equal(t, 3, phases[delivery.Known], "people who wait to be discharged")
			assert.GreaterOrEqual(t, phases[delivery.CylinderNow], 4)
			assert.GreaterOrEqual(t, phases[delivery.Over], 60)
			things, total, err := desk.Items(ctx, items.Filter{})
			require.NoError(t, err)
			assert.InDelta(t, 930, total, 30, "things at %s", now)
			states := make(map[inventory.State]int)
			for _, i := range things {
				states[i.State]++
				assert.Empty(t, i.Doubts, "doubts about %s at %s", i.Label(), now)
			}
			for _, s := range []inventory.State{
				inventory.Ready, inventory.Held, inventory.HandedOver, inventory.AtWork, inventory.AsBackup, inventory.Idle,
				inventory.Dirty, inventory.InQuarantine, inventory.OnBench, inventory.InRepair, inventory.OutAtPlant,
				inventory.Missing, inventory.Gone,
			} {
				assert.Positive(t, states[s], "things %s at %s", s, now)
			}
			audit, err := desk.Audit(ctx)
			require.NoError(t, err)
			assert.Empty(t, audit.Mismatches)
		})
	}
}

// TestDemoIsInvented: phones are of the range kept free for fiction, homes
// lie out at sea, and nothing lies ahead of the present.
func TestDemoIsInvented(t *testing.T) {
	ctx := context.Background()
	desk := deskOn(t, demoBook(t, afternoon))
	at := moment(t, afternoon)
	people, err := desk.Homes(ctx, "", 1000)
	require.NoError(t, err)
	for _, f := range people {
		for _, phone := range f.Person.Phones {
			assert.Regexp(t, `^555-01\d\d$`, phone.Number, "phone of %s", f.Person.Name())
		}
		p := f.Address.Point
		assert.True(t, p.Lat > 36.2 && p.Lat < 36.8 && p.Lon > -40.9 && p.Lon < -40.0, "%s lies at %v", f.Address.Where(), p)
	}
	programme, err := desk.Programme(ctx)
	require.NoError(t, err)
	require.NoError(t, programme.Check())
	_, served := programme.Duty(at)
	assert.True(t, served, "somebody is on call")
	facts, err := desk.Facts(ctx, items.About{})
	require.NoError(t, err)
	for _, f := range facts {
		assert.False(t, f.Happened.After(at), "fact %d happened %s", f.ID, f.Happened)
		assert.False(t, f.Recorded.Before(f.Happened.Truncate(time.Minute)), "fact %d was recorded %s before it happened", f.ID, f.Recorded)
	}
}

// TestDemoIsTheSameForTheSameMoment compares two books of one moment by every
// list the program gives of them.
func TestDemoIsTheSameForTheSameMoment(t *testing.T) {
	one := demoBook(t, afternoon)
	other := filepath.Join(t.TempDir(), "other.lungwort")
	makeDemo(t, other, afternoon)
	for _, list := range [][]string{{"watch", "--json", "--at", afternoon}, {"recall", "--json", "--from", "RG-5101", "--to", "RG-5322"}} {
		first := run(t, append(list, "--book", one)...)
		assert.Equal(t, first, run(t, append(list, "--book", other)...), "%v", list)
		assert.Greater(t, strings.Count(first, "\n"), 200)
	}
	ctx := context.Background()
	first, err := deskOn(t, one).Facts(ctx, items.About{})
	require.NoError(t, err)
	second, err := deskOn(t, other).Facts(ctx, items.About{})
	require.NoError(t, err)
	assert.Equal(t, first, second)
}
