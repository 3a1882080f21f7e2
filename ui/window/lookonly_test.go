package window

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/ui/work"
)

// Of two programs on one book the second opens it to look only and says who has
// it; nothing is entered from there.
func TestASecondProgramLooksOnly(t *testing.T) {
	path := filepath.Join(t.TempDir(), "b.lungwort")
	first := launch(t, path)
	press(t, first.window, "New programme")
	require.NotNil(t, first.frame)
	require.Empty(t, first.lookOnly)

	second := launch(t, path)
	require.NotNil(t, second.frame, words(second.window))
	assert.Contains(t, words(second.window), "is in use by ")
	assert.Contains(t, words(second.window), "It is shown to look only")
	second.frame.Open(work.Target{Room: work.Homes})
	assert.Equal(t, work.Homes, second.frame.here.Room)
	assert.True(t, second.book.ReadOnly())

	second.end()
	first.end()
	third := launch(t, path)
	assert.NotContains(t, words(third.window), "look only", "nobody has it any more")
}
