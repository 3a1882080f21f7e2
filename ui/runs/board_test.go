package runs_test

import (
	"context"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/runs"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

// accepted is the desk of the story with the afternoon's runs in force.
func accepted(t *testing.T) (*uitest.Desk, *runs.Model) {
	d := uitest.New(t)
	m := planned(t, d)
	m.Accept()
	require.Empty(t, d.Refused)
	require.False(t, m.Proposing())
	return d, m
}

// blocks are the keys of the stops on each lane.
func blocks(m *runs.Model) [][]string {
	var lanes [][]string
	for _, l := range m.Timelines().Lanes {
		var keys []string
		for _, b := range l.Blocks {
			keys = append(keys, b.Key)
		}
		lanes = append(lanes, keys)
	}
	return lanes
}

// TestCarryByKeys picks a stop up, carries it to another vehicle, sees what
// that costs, puts it back, and carries it again for good.
func TestCarryByKeys(t *testing.T) {
	d, _ := accepted(t)
	v := runs.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Runs})
	m := v.Model()
	before := blocks(m)
	win.Canvas().Focus(v.Board())
	uitest.Press(win, fyne.KeyRight)
	uitest.Shoot(t, win, "runs-board-1-hand")
	uitest.Press(win, fyne.KeyReturn)
	require.True(t, m.Carrying())
	uitest.Press(win, fyne.KeyDown)
	if len(m.Costs()) < 2 {
		uitest.Press(win, fyne.KeyUp, fyne.KeyUp)
	}
	uitest.Shoot(t, win, "runs-board-2-carried")
	assert.NotEqual(t, before, blocks(m))
	require.NotEmpty(t, m.Costs())
	assert.Contains(t, m.Costs()[0], "km, ")
	uitest.Press(win, fyne.KeyEscape)
	assert.Equal(t, before, blocks(m), "Esc puts it back")
	assert.False(t, m.Trying())

	uitest.Press(win, fyne.KeyReturn, fyne.KeyDown, fyne.KeyReturn)
	if !m.Trying() {
		uitest.Press(win, fyne.KeyReturn, fyne.KeyUp, fyne.KeyReturn)
	}
	require.True(t, m.Trying())
	uitest.Shoot(t, win, "runs-board-3-dropped")
	tried := blocks(m)
	done(win)
	require.Empty(t, d.Refused)
	assert.False(t, m.Trying())
	assert.ElementsMatch(t, lengths(tried), lengths(blocks(m)), "it is in force as it was tried")
	d.Clean()
}

// TestTrialIsKept: what is tried on the board stands there when the screen is
// opened again, until the book stands otherwise.
func TestTrialIsKept(t *testing.T) {
	d, m := accepted(t)
	m.PickUp()
	m.Step(0, 1)
	m.Drop()
	require.True(t, m.Trying())
	tried := blocks(m)
	d.Day(0, "16:25")
	m.Load()
	assert.True(t, m.Trying())
	assert.Equal(t, tried, blocks(m))
	assert.NotEmpty(t, m.Costs())

	_, err := d.Desk.Do(context.Background(), d.Work.Hand(inventory.Phoned), delivery.Withdraw{Vehicle: "van 2", Why: "broken down"})
	require.NoError(t, err)
	m.Load()
	assert.False(t, m.Trying())
	assert.Contains(t, d.Said[len(d.Said)-1], "what was tried on the board is dropped")
}

func lengths(lanes [][]string) []int {
	var n []int
	for _, l := range lanes {
		if len(l) > 0 {
			n = append(n, len(l))
		}
	}
	return n
}

// TestLockedStopStays: it is not carried to another vehicle, and says why.
func TestLockedStopStays(t *testing.T) {
	d, m := accepted(t)
	m.Lock()
	require.True(t, m.Trying())
	m.AcceptTrial()
	require.Empty(t, d.Refused)
	assert.Contains(t, m.HandWords(), "locked")
	before := blocks(m)
	m.PickUp()
	for range 3 {
		m.Step(0, 1)
	}
	for range 3 {
		m.Step(0, -1)
	}
	m.Drop()
	assert.Equal(t, before[2], blocks(m)[2], "nothing came to van 2")
	assert.Contains(t, strings.Join(d.Said, " "), "locked to van")
	board, err := d.Desk.Board(context.Background(), uitest.Now)
	require.NoError(t, err)
	locked := 0
	for _, r := range board.Times() {
		for _, s := range r.Stops {
			if s.Locked {
				locked++
			}
		}
	}
	assert.Equal(t, 1, locked, "the lock is in the book")
}

// TestVehicleFallsOut: its stops go elsewhere, as a difference first.
func TestVehicleFallsOut(t *testing.T) {
	d, m := accepted(t)
	form := m.WithdrawForm()
	closed := false
	wrong := form.Submit(form.Answered().With(map[string]string{"vehicle": "van 2", "why": "driver ill"}), func(err error) {
		require.NoError(t, err)
		closed = true
	})
	require.Empty(t, wrong)
	require.True(t, closed)
	require.True(t, m.Trying(), "the day is planned anew")
	assert.NotEmpty(t, m.Costs())
	m.Go()
	require.Empty(t, d.Refused)
	left, err := d.Desk.Runs(context.Background(), "")
	require.NoError(t, err)
	for _, r := range left {
		assert.NotEqual(t, "van 2", r.Vehicle)
	}
	d.Clean()
}

// TestAcceptByKeysAfterAButton: a button takes the keyboard from everything; what
// was planned anew is accepted by Ctrl+Enter all the same.
func TestAcceptByKeysAfterAButton(t *testing.T) {
	d, _ := accepted(t)
	_, err := d.Desk.Do(context.Background(), d.Work.Hand(inventory.Phoned), delivery.Withdraw{Vehicle: "van 2", Why: "driver ill"})
	require.NoError(t, err)
	v := runs.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Runs})
	win.Canvas().Unfocus()
	v.Model().PlanAnew()
	require.True(t, v.Model().Trying())
	require.NotNil(t, win.Canvas().Focused())
	done(win)
	require.Empty(t, d.Refused)
	assert.False(t, v.Model().Trying(), "it is in the book")
	assert.NotContains(t, strings.Join(d.Said, "\n"), "dropped")
	d.Clean()
}

// TestMapOfTheRun: M shows the round of the stop in hand as a map, its stops
// under the numbers of the board, and M brings the list back.
func TestMapOfTheRun(t *testing.T) {
	d, _ := accepted(t)
	v := runs.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Runs})
	m := v.Model()
	win.Canvas().Focus(v.Board())
	uitest.Press(win, fyne.KeyRight)
	uitest.Type(win, "m")
	uitest.Shoot(t, win, "runs-map")
	assert.True(t, v.Map().Visible())
	chart := m.Chart(scene.Sight{})
	require.Len(t, chart.Routes, 1)
	var numbers []string
	for _, lane := range m.Timelines().Lanes {
		for _, b := range lane.Blocks {
			if b.InHand {
				for _, b := range lane.Blocks {
					numbers = append(numbers, b.Label)
				}
			}
		}
	}
	require.NotEmpty(t, numbers)
	for _, label := range chart.Routes[0].Labels {
		if label != "" {
			assert.Contains(t, numbers, label)
		}
	}
	assert.Len(t, chart.Homes, len(numbers))
	uitest.Type(win, "m")
	assert.False(t, v.Map().Visible())
	d.Clean()
}

// A frame is a sixtieth of a second.
const frame = time.Second / 60

// TestDraggedStopIsTimed: wherever a stop is dragged, the board shows the
// rounds as they would go then.
func TestDraggedStopIsTimed(t *testing.T) {
	_, m := accepted(t)
	round, key := -1, ""
	for i, l := range m.Timelines().Lanes {
		for _, b := range l.Blocks {
			if b.InHand {
				round, key = i, b.Key
			}
		}
	}
	require.GreaterOrEqual(t, round, 0)
	seen := make(map[string]bool)
	for y := 30.0; y < 240; y += 20 {
		m.DragTo(key, 600, y, 1000, 240)
		data := m.Timelines()
		lane, _, ok := data.LaneAt(600, y, 1000, 240)
		if !ok {
			continue
		}
		for _, b := range data.Lanes[lane].Blocks {
			if b.Key == key {
				seen[data.Lanes[lane].Name] = true
				assert.True(t, b.Carried)
				assert.False(t, b.From.Before(data.Lanes[lane].Leaves), "it is reached after the vehicle leaves")
			}
		}
		require.NotEmpty(t, m.Costs())
	}
	assert.Greater(t, len(seen), 1, "it went from lane to lane")
	m.PutBack()
	assert.False(t, m.Trying())
}

// BenchmarkDrag carries a stop back and forth over the board as a pointer does,
// with everything the screen tells of it; a frame is 16.7 ms.
func BenchmarkDrag(b *testing.B) {
	d := uitest.New(b)
	m := runs.NewModel(d.Work)
	m.Load()
	m.Plan()
	m.Accept()
	key := ""
	for _, l := range m.Timelines().Lanes {
		for _, block := range l.Blocks {
			if block.InHand {
				key = block.Key
			}
		}
	}
	for n := 0; b.Loop(); n++ {
		m.DragTo(key, 200+float64(n*37%800), 30+float64(n*53%200), 1000, 240)
		m.Timelines()
		m.HandWords()
		m.Costs()
	}
	b.ReportMetric(float64(b.Elapsed())/float64(b.N)/float64(frame), "frames/drag")
}
