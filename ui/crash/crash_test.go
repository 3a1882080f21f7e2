package crash_test

import (
	"errors"
	"fmt"
	"os"
	"runtime/debug"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/ui/crash"
)

var at = time.Date(2030, time.March, 5, 16, 20, 0, 0, time.UTC)

// caught returns the report of what do panics with.
func caught(do func()) (r crash.Report) {
	defer func() { r = crash.Of(recover(), debug.Stack(), at) }()
	do()
	return r
}

// Whatever a panic says, the file holds where it was and nothing of anybody.
func TestNoReportNamesAnybody(t *testing.T) {
	for name, do := range map[string]func(){
		"a text":          func() { panic("Zephyrine Quillfeather, 555-0199, has no address") },
		"an error":        func() { panic(errors.New("Zephyrine Quillfeather, 555-0199")) },
		"an error inside": func() { panic(fmt.Errorf("act 3: %w", errors.New("Zephyrine Quillfeather, 555-0199"))) },
		"a nil map":       func() { var m map[string]int; m["Zephyrine Quillfeather"] = 555 },
		"a text again": func() {
			defer func() { panic(fmt.Sprint("again ", recover())) }()
			panic("Zephyrine Quillfeather 555-0199")
		},
	} {
		r := caught(do)
		file, err := r.Write(t.TempDir())
		require.NoError(t, err)
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		for _, personal := range []string{"Zephyrine", "Quillfeather", "555-0199"} {
			assert.NotContains(t, string(text), personal, name)
		}
		assert.Contains(t, string(text), "crash_test.go", "%s: where it was", name)
		assert.Contains(t, string(text), r.Reference)
		assert.Contains(t, r.Refusal().Error(), r.Reference)
		assert.Regexp(t, `^0305-1620-[0-9A-F]{4}$`, r.Reference)
		info, err := os.Stat(file)
		require.NoError(t, err)
		assert.Equal(t, os.FileMode(0o600), info.Mode().Perm())
	}
	assert.Contains(t, caught(func() { var list []int; _ = list[7] }).What, "index out of range", "a fault of the language is told")
}

func TestEachReportIsToldOnce(t *testing.T) {
	dir := t.TempDir()
	assert.Empty(t, crash.Unseen(dir))
	r := caught(func() { panic("x") })
	_, err := r.Write(dir)
	require.NoError(t, err)
	assert.Equal(t, []string{r.Reference}, crash.Unseen(dir))
	assert.Empty(t, crash.Unseen(dir))
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, entries, 1, "the file stays")
	assert.True(t, strings.HasPrefix(entries[0].Name(), "crash-"))
}
