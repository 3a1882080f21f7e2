package recall_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/recall"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

// TestRangeIsSearchedMarkedAndFollowed: the four lists, the swaps with their
// due time by risk, letter, reply and progress.
func TestRangeIsSearchedMarkedAndFollowed(t *testing.T) {
	d := uitest.New(t)
	v := recall.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Recall})
	uitest.Shoot(t, win, "recall-1-empty")
	win.Canvas().Focus(v.Keyboard())
	uitest.Type(win, "1")
	require.NotNil(t, win.Canvas().Overlays().Top(), "it asks what the notice names")
	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "CN00401")
	uitest.Press(win, fyne.KeyReturn)
	uitest.Type(win, "CN00406")
	uitest.Shoot(t, win, "recall-1-ask")
	m := recall.NewModel(d.Work)
	m.Find(delivery.RecallNotice{From: "CN00401", To: "CN00406"})
	assert.Equal(t, "5 in homes now · 1 in our places · 0 lent before · 0 cannot tell", m.Below)
	form, ok := m.MarkForm("")
	require.True(t, ok)
	wrong := form.Submit(form.Answered().With(map[string]string{"notice": "Q-88"}), func(err error) { require.NoError(t, err) })
	require.Empty(t, wrong)
	assert.Equal(t, "Q-88", m.Notice)
	require.Len(t, m.Rows, 6)
	first := m.Rows[0]
	assert.Equal(t, "in a home", first.Part)
	assert.Contains(t, first.Below, "due Wed 16:20")
	m.PrintLetter(first.ID)
	require.Len(t, d.Shown, 1, "the letter opens")
	m.PrintLetters()
	require.Len(t, d.Shown, 2, "everybody's letters are one paper")
	assert.Contains(t, d.Shown[1], "recall-letters")
	m.PrintLetter(d.Things["CN00404"]) // with the driver
	assert.NotEmpty(t, d.Refused)
	d.Refused = nil
	scanned := recall.NewModel(d.Work)
	scanned.OpenFileOf(first.ID) // its letter comes back
	assert.Equal(t, "Q-88", scanned.Notice)
	letter := m.LetterForm(first.ID)
	letter.Submit(letter.Answered(), func(err error) { require.NoError(t, err) })
	reply := m.ReplyForm(first.ID)
	reply.Submit(reply.Answered().With(map[string]string{"says": "use"}), func(err error) { require.NoError(t, err) })
	assert.Equal(t, "1 of 6 located, 1 within 24 h · 5 still in homes · 1 told · 1 replied", m.Below)
	care := d.Page("Jory").Care
	require.True(t, care.Has(delivery.Swap))
	assert.Equal(t, "recall Q-88", d.Thing("CN00401").Why)
	assert.Equal(t, inventory.AtWork, d.Thing("CN00401").State, "it stays until it is swapped")
	d.Clean()
}

// TestAreaDrawnKeepsTheRecall: homes chosen on the map keep a search, what is
// marked and a file to themselves.
func TestAreaDrawnKeepsTheRecall(t *testing.T) {
	d := uitest.New(t)
	v := recall.New(d.Work)
	win := uitest.Show(t, v)
	jory := d.Persons["Jory"]
	v.Open(work.Target{Room: work.Recall, Homes: []inventory.PersonID{jory}})
	uitest.Shoot(t, win, "recall-area")
	m := recall.NewModel(d.Work)
	m.OpenArea([]inventory.PersonID{jory})
	assert.Contains(t, m.Below, "Only 1 home drawn around on the map: search what the notice names")
	m.Find(delivery.RecallNotice{From: "CN00401", To: "CN00406"})
	assert.Contains(t, m.Below, "1 in homes now · 0 in our places")
	require.Len(t, m.Rows, 1)
	assert.Equal(t, jory, m.Rows[0].Person)
	form, ok := m.MarkForm("")
	require.True(t, ok)
	assert.Contains(t, form.Title, "Mark 1 named")
	assert.Contains(t, form.Before, "mark the rest of the notice too")
	require.Empty(t, form.Submit(form.Answered().With(map[string]string{"notice": "Q-89"}), func(err error) { require.NoError(t, err) }))
	require.Len(t, m.Rows, 1, "the file too")
	m.Everywhere()
	m.Find(delivery.RecallNotice{From: "CN00401", To: "CN00406"})
	assert.Greater(t, len(m.Rows), 1)
}

// TestFileOfARecall draws what a file and a search look like.
func TestFileOfARecall(t *testing.T) {
	d := uitest.New(t)
	v := recall.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.Recall, Text: "L2409A"})
	uitest.Shoot(t, win, "recall-2-search")
	d.Act(delivery.Recall{Notice: "Q-88", Items: []inventory.ItemID{d.Things["CN00401"], d.Things["CN00405"], d.Things["CN00409"]}, Due: d.Work.Now()})
	v.Open(work.Target{Room: work.Recall})
	win.Canvas().Focus(v.Keyboard())
	uitest.Press(win, fyne.KeyDown, fyne.KeyReturn)
	m := recall.NewModel(d.Work)
	m.OpenFile("Q-88")
	uitest.Shoot(t, win, "recall-3-file")

	first := recall.NewModel(d.Work)
	first.Load()
	assert.Equal(t, "2030-07", first.Notice, "where nothing was asked for the first file is shown")
	assert.NotEmpty(t, first.Rows)
	assert.Equal(t, []string{"2030-07", "Q-88"}, m.Notices)
	d.Clean()
}
