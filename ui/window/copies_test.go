package window

import (
	"context"
	"errors"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// The book is copied once the window is up and looked after each hour, so that
// a day that begins while the program runs gets its copy; a failure is told and
// tried again.
func TestCopiesWhileTheProgramRuns(t *testing.T) {
	var days []string
	var told []error
	fails := errors.New("disk full")
	c := &copier{
		dir: "copies",
		keep: func(_ context.Context, dir string, _ []string, now time.Time) (string, error) {
			assert.Equal(t, "copies", dir)
			days = append(days, now.Format("2 15:04"))
			if len(days) == 2 {
				return "", fails
			}
			return "", nil
		},
		run:  func(_ string, work func(context.Context) error, done func(error)) { done(work(t.Context())) },
		tell: func(err error) { told = append(told, err) },
	}
	start := time.Date(2030, time.March, 8, 22, 30, 0, 0, time.UTC)
	for minute := range 125 {
		c.tick(start.Add(time.Duration(minute) * time.Minute))
	}
	assert.Equal(t, []string{"8 22:31", "8 23:31", "9 00:31"}, days)
	assert.Equal(t, []error{fails}, told)
}
