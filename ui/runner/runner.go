// Package runner takes work off the window's goroutine and brings the outcome
// back to it. It is the only place under ui that starts goroutines or asks the
// clock.
package runner

import (
	"context"
	"sync"
	"time"

	"fyne.io/fyne/v2"
)

// Runner runs work for a screen. Work of one kind replaces the earlier work of
// that kind: the earlier one's context ends and its outcome is not reported,
// so a slow answer never overwrites a newer one.
type Runner interface {
	// Go runs work, then done with its error on the window's goroutine. Either
	// may use what the other wrote. done may be nil.
	Go(kind string, work func(ctx context.Context) error, done func(error))
	// Show runs do on the window's goroutine. Work under way calls it to show
	// how far it is.
	Show(do func())
	// Stop ends the work of a kind; done is called with context.Canceled.
	Stop(kind string)
}

// Inline is a Runner for tests and for drawing without a window: work and done
// run before Go returns.
type Inline struct{}

// Go runs work, then done.
func (Inline) Go(_ string, work func(context.Context) error, done func(error)) {
	err := work(context.Background())
	if done != nil {
		done(err)
	}
}

// Show runs do.
func (Inline) Show(do func()) { do() }

// Stop does nothing: no work is ever under way.
func (Inline) Stop(string) {}

// Background is a Runner that runs each work on a goroutine of its own.
type Background struct {
	// hop brings a call to the window's goroutine.
	hop func(func())

	// Fault writes a panic of work down and returns what is told of it; nil: it
	// ends the program.
	Fault func(fault any) error

	root   context.Context
	cancel context.CancelFunc
	busy   sync.WaitGroup

	mu     sync.Mutex
	latest map[string]*job
	closed bool
}

// job is one work under way.
type job struct {
	cancel context.CancelFunc
}

var (
	_ Runner = Inline{}
	_ Runner = (*Background)(nil)
)

// NewBackground returns a Runner for a window that is shown.
func NewBackground() *Background { return newBackground(fyne.Do) }

func newBackground(hop func(func())) *Background {
	root, cancel := context.WithCancel(context.Background())
	return &Background{hop: hop, root: root, cancel: cancel, latest: map[string]*job{}}
}

// Go starts work on a goroutine. After Shutdown it does nothing.
func (b *Background) Go(kind string, work func(context.Context) error, done func(error)) {
	ctx, cancel := context.WithCancel(b.root)
	mine := &job{cancel: cancel}

	b.mu.Lock()
	if b.closed {
		b.mu.Unlock()
		cancel()
		return
	}
	if earlier := b.latest[kind]; earlier != nil {
		earlier.cancel()
	}
	b.latest[kind] = mine
	b.busy.Add(1)
	b.mu.Unlock()

	go func() {
		defer b.busy.Done()
		defer cancel()
		err := b.guarded(ctx, work)
		if b.isLatest(kind, mine) {
			b.hop(func() { b.report(kind, mine, done, err) })
		}
	}()
}

// guarded does work, and makes a fault of it an error: what it wrote was not
// kept, and the window goes on.
func (b *Background) guarded(ctx context.Context, work func(context.Context) error) (err error) {
	if b.Fault != nil {
		defer func() {
			if fault := recover(); fault != nil {
				err = b.Fault(fault)
			}
		}()
	}
	return work(ctx)
}

// Show brings do to the window's goroutine. After Shutdown it does nothing.
func (b *Background) Show(do func()) {
	if b.root.Err() == nil {
		b.hop(do)
	}
}

// Stop ends the work of a kind. What it did not finish comes back to done as
// the error it returns, usually context.Canceled.
func (b *Background) Stop(kind string) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if now := b.latest[kind]; now != nil {
		now.cancel()
	}
}

// report calls done unless newer work of the kind has started since, for the
// hop to the window takes time as well.
func (b *Background) report(kind string, mine *job, done func(error), err error) {
	b.mu.Lock()
	current := b.latest[kind] == mine && !b.closed
	if current {
		delete(b.latest, kind)
	}
	b.mu.Unlock()
	if current && done != nil {
		done(err)
	}
}

func (b *Background) isLatest(kind string, mine *job) bool {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.latest[kind] == mine && !b.closed
}

// Shutdown ends all work and waits for it. No done is called any more, so the
// window may close the book next.
func (b *Background) Shutdown() {
	b.mu.Lock()
	b.closed = true
	b.mu.Unlock()
	b.cancel()
	b.busy.Wait()
}

// Alongside runs work beside everything else until Shutdown.
func (b *Background) Alongside(work func(context.Context) error) { b.Go("alongside", work, nil) }

// EveryMinute calls tick on the window's goroutine with the time, now and at
// each full minute, until Shutdown: the clock the screens show.
func (b *Background) EveryMinute(tick func(now time.Time)) {
	b.Go("clock", func(ctx context.Context) error {
		for {
			now := time.Now()
			b.hop(func() {
				if ctx.Err() == nil {
					tick(now)
				}
			})
			select {
			case <-ctx.Done():
				return ctx.Err()
			case <-time.After(now.Truncate(time.Minute).Add(time.Minute).Sub(now)):
			}
		}
	}, nil)
}
