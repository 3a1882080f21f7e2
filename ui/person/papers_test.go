package person

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery/paperwork"
	"lungwort/labels/tongue"
	"lungwort/ui/uitest"
)

func TestPapersOfAPerson(t *testing.T) {
	d := uitest.New(t)
	d.Work.Dir = filepath.Join(t.TempDir(), "papers")
	m := NewModel(d.Work)
	m.Open(d.Persons["Ines"])
	form := m.PaperForm()
	require.Len(t, form.Fields, 2)
	for _, p := range paperwork.HomePapers {
		answers := form.Answered()
		answers["paper"] = p.ID
		form.Submit(answers, func(err error) { require.NoError(t, err) })
		if !slices.Contains([]string{"leaflet", "sign", "hand-over", "delivery-proof"}, p.ID) {
			assert.NotEmpty(t, d.Refusal().Next, "%s: she has given nothing back, and nothing is asked for", p.ID)
			d.Refused = nil
			continue
		}
		require.Empty(t, d.Refused, p.ID)
		file := d.Shown[len(d.Shown)-1]
		assert.Contains(t, filepath.Base(file), p.ID+"-p0")
		info, err := os.Stat(file)
		require.NoError(t, err)
		assert.Equal(t, os.FileMode(0o600), info.Mode().Perm())
	}

	folder := filepath.Join(d.Work.Dir, paperwork.TongueDir)
	require.NoError(t, os.MkdirAll(folder, 0o700))
	english, err := tongue.Template()
	require.NoError(t, err)
	own := strings.Replace(string(english), "language = English", "language = Kriol", 1)
	require.NoError(t, os.WriteFile(filepath.Join(folder, "kriol.txt"), []byte(own), 0o600))
	assert.Equal(t, "Kriol", m.PaperForm().Fields[1].Options[2].Label)

	require.NoError(t, os.WriteFile(filepath.Join(folder, "broken.txt"), []byte("language = X\n"), 0o600))
	assert.Contains(t, m.PaperForm().Before, "broken.txt")
}
