// Package booktest gives tests a book of their own with a clock they set.
package booktest

import (
	"context"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"lungwort/inventory/book"
)

// Start is the instant a new Clock shows.
var Start = time.Date(2030, time.March, 4, 14, 0, 0, 0, time.UTC)

// Clock is a clock that moves only when told. Its methods may be called from
// several goroutines.
type Clock struct {
	mu  sync.Mutex
	now time.Time
}

// NewClock returns a clock that shows Start.
func NewClock() *Clock { return &Clock{now: Start} }

// Now returns what the clock shows.
func (c *Clock) Now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.now
}

// Set makes the clock show t.
func (c *Clock) Set(t time.Time) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.now = t
}

// Advance moves the clock on by d.
func (c *Clock) Advance(d time.Duration) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.now = c.now.Add(d)
}

// New returns a fresh book with the given migrations in the test's own folder,
// closed when the test ends. Its clock shows Start and stands still.
func New(t testing.TB, sets ...book.Set) *book.Book {
	t.Helper()
	return NewAt(t, NewClock(), sets...)
}

// NewAt is New with a clock the test keeps hold of.
func NewAt(t testing.TB, clock *Clock, sets ...book.Set) *book.Book {
	t.Helper()
	return create(t, filepath.Join(t.TempDir(), "book.lungwort"), clock, sets)
}

func create(t testing.TB, path string, clock *Clock, sets []book.Set) *book.Book {
	t.Helper()
	b, err := book.Create(context.Background(), path, book.Options{Now: clock.Now, Sets: sets})
	if err != nil {
		t.Fatalf("book for the test: %v", err)
	}
	t.Cleanup(func() {
		if err := b.Close(); err != nil {
			t.Errorf("closing the book of the test: %v", err)
		}
	})
	return b
}
