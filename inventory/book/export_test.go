package book

import "time"

// SetPatience shortens the wait for another program's lock.
func SetPatience(d time.Duration) { patience = d }

var (
	Judge         = judge
	SQLiteDialect = sqliteDialect
)

func (d dialect) Expand(text string) (string, error) { return d.expand(text) }
