package draft_test

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/ui/draft"
	"lungwort/ui/work"
)

var at = time.Date(2030, time.March, 5, 16, 20, 0, 0, time.UTC)

func TestWhatIsKeptIsThereAgain(t *testing.T) {
	file := filepath.Join(t.TempDir(), "own", "drafts.json")
	k, err := draft.Open(file)
	require.NoError(t, err)
	call := draft.Form{Room: work.Calls, Person: "p00001", By: "Ines", At: at, Texts: map[string]string{"problem": "tube"}}
	require.NoError(t, k.Keep(call))
	call.Texts = map[string]string{"problem": "tube cracked"}
	require.NoError(t, k.Keep(call))
	order := draft.Form{Room: work.Person, Person: "p00001", Title: "New order", By: "Bram", At: at, Texts: map[string]string{"rest": "2"}}
	require.NoError(t, k.Keep(order))

	info, err := os.Stat(file)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o600), info.Mode().Perm(), "it holds what people typed of people")

	again, err := draft.Open(file)
	require.NoError(t, err)
	assert.Equal(t, []draft.Form{call}, again.Of("Ines"))
	assert.Equal(t, []draft.Form{order}, again.Of("Bram"), "each their own")
	found, ok := again.Find(draft.Form{Room: work.Calls, Person: "p00001", By: "Ines"})
	assert.True(t, ok)
	assert.Equal(t, "tube cracked", found.Texts["problem"])
	assert.Equal(t, work.Target{Room: work.Calls, Person: "p00001"}, found.Target())

	call.Texts = nil
	require.NoError(t, again.Keep(call))
	last, err := draft.Open(file)
	require.NoError(t, err)
	assert.Empty(t, last.Of("Ines"), "what was acted on is kept no more")
}

func TestAFileThatCantBeReadIsBegunAnew(t *testing.T) {
	file := filepath.Join(t.TempDir(), "drafts.json")
	require.NoError(t, os.WriteFile(file, []byte("{half"), 0o600))
	k, err := draft.Open(file)
	assert.ErrorContains(t, err, "Type it anew")
	require.NoError(t, k.Keep(draft.Form{Room: work.Calls, By: "Ines", Texts: map[string]string{"problem": "tube"}}))
	again, err := draft.Open(file)
	require.NoError(t, err)
	assert.Len(t, again.Of("Ines"), 1)
}
