package season_test

import (
	"context"
	"errors"
	"flag"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/ui/season"
	"lungwort/ui/season/fate"
)

var weeks = flag.Int("weeks", 1, "how many weeks the season lasts")

// The first season of the test program, which its tests share: it takes a while.
func lived(t *testing.T) season.Report {
	t.Helper()
	r, err := season.Compare(context.Background(), season.Options{Weeks: *weeks, Seed: 1, Policies: season.Policies()})
	require.NoError(t, err)
	return r
}

// Each policy lives through the same season with the real program: every audit
// is clean, and every item is where the book has it.
func TestPoliciesLiveThroughASeason(t *testing.T) {
	r := lived(t)
	require.Len(t, r.Policies, len(season.Policies()))
	for _, f := range r.Policies {
		assert.Empty(t, f.Mismatches, f.Policy)
		assert.Empty(t, f.Elsewhere, f.Policy)
		assert.Greater(t, f.Discharges, 10**weeks, f.Policy)
		assert.Greater(t, f.Facts, 20*f.Discharges, f.Policy)
		assert.Positive(t, f.VanHours, f.Policy)
		assert.Positive(t, f.Calls, f.Policy)
	}
	assert.True(t, r.Sound())
	if *weeks == fullSize {
		aLongSeasonIsAsTheReadmeSays(t, r)
	}
}

// fullSize is how many weeks the table of README.md counts.
const fullSize = 26

// In a season of full size the people who are looked after by the program are
// without oxygen for a tenth of the minutes at most, the vans are out no longer
// for it, and README.md has each figure as it came out.
func aLongSeasonIsAsTheReadmeSays(t *testing.T, r season.Report) {
	t.Helper()
	by := map[string]season.Figure{}
	for _, f := range r.Policies {
		by[f.Policy] = f
	}
	assert.LessOrEqual(t, 10*by[season.Lungwort].Without, by[season.Textbook].Without)
	assert.LessOrEqual(t, by[season.Lungwort].VanHours, by[season.Textbook].VanHours)
	readme, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	for _, cells := range r.Cells() {
		assert.Contains(t, string(readme), "| "+strings.Join(cells, " | ")+" |\n")
	}
}

// Each figure of the season has its row in README.md.
func TestTheReadmeHasEachFigure(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	for _, cells := range (season.Report{}).Cells() {
		assert.Contains(t, string(readme), "| "+cells[0]+" | ")
	}
}

// The same seed is the same season, and the same policy does the same in it.
func TestASeasonCanBeRunAgain(t *testing.T) {
	opt := season.Options{Weeks: 1, Seed: 4, Policies: []string{season.Lungwort}}
	first, err := season.Compare(context.Background(), opt)
	require.NoError(t, err)
	again, err := season.Compare(context.Background(), opt)
	require.NoError(t, err)
	assert.Equal(t, first, again)
	assert.Equal(t, fate.New(3, 4), fate.New(3, 4))
	assert.NotEqual(t, fate.New(3, 4), fate.New(3, 5))
}

// Whoever stops a season finds nothing left of it.
func TestAStoppedSeasonLeavesNothing(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	dir := t.TempDir()
	_, err := season.Compare(ctx, season.Options{Weeks: 2, Seed: 1, Policies: season.Policies(), Keep: dir, Tell: func(string, float64) { stop() }})
	assert.True(t, errors.Is(err, context.Canceled), "%v", err)
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Empty(t, left)
}
