package book

import (
	"maps"
	"slices"
	"time"
)

// SetPatience shortens the wait for another program's lock.
func SetPatience(d time.Duration) { patience = d }

var (
	Judge         = judge
	SQLiteDialect = sqliteDialect
)

func (d dialect) Expand(text string) (string, error) { return d.expand(text) }

const MostCompiled = mostCompiled

// Compiled returns the statements kept for readers.
func (b *Book) Compiled() []string {
	b.looked.mu.Lock()
	defer b.looked.mu.Unlock()
	return slices.Sorted(maps.Keys(b.looked.kept))
}
