package window

import (
	"context"
	"path/filepath"
	"time"
)

// A copy that could not be made is tried again after a while; the first waits
// until the window is up.
const (
	copyAfterStart = time.Minute
	copyAgain      = time.Hour
)

// copier makes the daily copies of the book while the program runs.
type copier struct {
	dir  string
	keep func(ctx context.Context, dir string, to []string, now time.Time) (string, error)
	run  func(kind string, work func(context.Context) error, done func(error))
	tell func(error)

	next time.Time // not before
}

// tick makes the copy of the day when it is due. It is called each minute.
func (c *copier) tick(now time.Time) {
	if c.next.IsZero() {
		c.next = now.Add(copyAfterStart)
	}
	if now.Before(c.next) {
		return
	}
	c.next = now.Add(copyAgain)
	c.run("daily copy", func(ctx context.Context) error {
		_, err := c.keep(ctx, c.dir, nil, now)
		return err
	}, func(err error) {
		if err != nil {
			c.tell(err)
		}
	})
}

// copier returns what copies the book of this window.
func (p *program) copier(keep func(context.Context, string, []string, time.Time) (string, error)) *copier {
	return &copier{dir: filepath.Join(filepath.Dir(p.papers), "copies"), keep: keep, run: p.run.Go, tell: p.frame.refuse}
}
