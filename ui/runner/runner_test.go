package runner

import (
	"context"
	"errors"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
)

// window stands for the window's goroutine: it runs what hops to it when the
// test says so, in order.
type window struct {
	mu    sync.Mutex
	calls []func()
}

func (w *window) hop(f func()) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.calls = append(w.calls, f)
}

func (w *window) run() {
	w.mu.Lock()
	calls := w.calls
	w.calls = nil
	w.mu.Unlock()
	for _, f := range calls {
		f()
	}
}

func TestInlineRunsWorkThenDone(t *testing.T) {
	var order []string
	boom := errors.New("boom")
	Inline{}.Go("read", func(context.Context) error {
		order = append(order, "work")
		return boom
	}, func(err error) {
		assert.Equal(t, boom, err)
		order = append(order, "done")
	})
	Inline{}.Go("read", func(context.Context) error { return nil }, nil)
	assert.Equal(t, []string{"work", "done"}, order)
}

func TestBackgroundReportsOnTheWindow(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		w := &window{}
		b := newBackground(w.hop)
		defer b.Shutdown()
		answer, reported := 0, false
		b.Go("read", func(context.Context) error { answer = 42; return nil }, func(err error) {
			assert.NoError(t, err)
			reported = true
		})
		synctest.Wait()
		assert.False(t, reported, "done ran off the window's goroutine")
		w.run()
		assert.True(t, reported)
		assert.Equal(t, 42, answer)
	})
}

func TestNewerWorkReplacesOlder(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		w := &window{}
		b := newBackground(w.hop)
		defer b.Shutdown()
		var shown []string
		show := func(text string) func(error) {
			return func(error) { shown = append(shown, text) }
		}
		ended := false
		b.Go("search", func(ctx context.Context) error { <-ctx.Done(); ended = true; return ctx.Err() }, show("first"))
		synctest.Wait()
		b.Go("search", func(context.Context) error { return nil }, show("second"))
		b.Go("count", func(context.Context) error { return nil }, show("other kind"))
		synctest.Wait()
		w.run()
		assert.True(t, ended, "the older work was not told to end")
		assert.ElementsMatch(t, []string{"second", "other kind"}, shown)
	})
}

func TestStaleAnswerOnItsWayIsDropped(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		w := &window{}
		b := newBackground(w.hop)
		defer b.Shutdown()
		var shown []string
		b.Go("search", func(context.Context) error { return nil }, func(error) { shown = append(shown, "old") })
		synctest.Wait() // the old answer waits for the window
		b.Go("search", func(context.Context) error { return nil }, func(error) { shown = append(shown, "new") })
		synctest.Wait()
		w.run()
		assert.Equal(t, []string{"new"}, shown)
	})
}

func TestStopReportsCanceled(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		w := &window{}
		b := newBackground(w.hop)
		defer b.Shutdown()
		var got error
		b.Go("intake", func(ctx context.Context) error { <-ctx.Done(); return ctx.Err() }, func(err error) { got = err })
		b.Stop("intake")
		b.Stop("nothing of this kind")
		synctest.Wait()
		w.run()
		assert.ErrorIs(t, got, context.Canceled)
	})
}

func TestShutdownEndsAndWaits(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		w := &window{}
		b := newBackground(w.hop)
		finished := false
		b.Go("slow", func(ctx context.Context) error {
			<-ctx.Done()
			time.Sleep(time.Second) // in the test's own time
			finished = true
			return ctx.Err()
		}, func(error) { t.Error("done called after Shutdown") })
		b.Shutdown()
		assert.True(t, finished, "Shutdown did not wait")
		b.Go("late", func(context.Context) error { t.Error("work started after Shutdown"); return nil }, nil)
		synctest.Wait()
		w.run()
	})
}

func TestEveryMinuteTicksOnTheMinute(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		w := &window{}
		b := newBackground(w.hop)
		time.Sleep(20 * time.Second)
		var ticks []time.Time
		b.EveryMinute(func(now time.Time) { ticks = append(ticks, now) })
		time.Sleep(2 * time.Minute)
		w.run()
		if assert.Len(t, ticks, 3) {
			assert.Equal(t, []int{20, 0, 0}, []int{ticks[0].Second(), ticks[1].Second(), ticks[2].Second()})
		}
		b.Shutdown()
	})
}

func TestShowRunsOnTheWindowAndNotAfterShutdown(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		w := &window{}
		b := newBackground(w.hop)
		var steps []int
		b.Go("intake", func(context.Context) error {
			for i := range 3 {
				b.Show(func() { steps = append(steps, i) })
			}
			return nil
		}, nil)
		synctest.Wait()
		assert.Empty(t, steps, "shown off the window's goroutine")
		w.run()
		assert.Equal(t, []int{0, 1, 2}, steps)
		b.Shutdown()
		b.Show(func() { t.Error("shown after Shutdown") })
		w.run()
	})
}
