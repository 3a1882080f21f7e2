package ask_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"lungwort/ui/ask"
)

// What is keyed as 02:56 at 02:56:41 comes after what was done at 02:56:38.
func TestTheMinuteOfNowIsNow(t *testing.T) {
	now := time.Date(2030, time.March, 4, 2, 56, 41, 0, time.UTC)
	assert.Equal(t, now, ask.Exact(now.Truncate(time.Minute), now))
	earlier := now.Add(-time.Minute).Truncate(time.Minute)
	assert.Equal(t, earlier, ask.Exact(earlier, now), "an earlier minute stays as it was keyed")
}
