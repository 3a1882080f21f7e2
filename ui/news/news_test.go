package news_test

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/ui/news"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

// TestMondayMorning: what was keyed in over the weekend stands there once, by
// who it is about, and Enter goes there.
func TestMondayMorning(t *testing.T) {
	d := uitest.New(t)
	d.At(time.Date(2030, time.March, 9, 14, 0, 0, 0, uitest.Zone)) // Saturday
	d.Act(delivery.Visit{Run: d.Run, Person: d.Persons["Tobin"], Failed: "nobody home"})
	d.At(time.Date(2030, time.March, 11, 8, 0, 0, 0, uitest.Zone))
	v := news.New(d.Work)
	win := uitest.Show(t, v)
	v.Open(work.Target{Room: work.News})
	m := news.NewModel(d.Work)
	m.Load()
	assert.Equal(t, "since Friday evening", m.From.Name, "it is Monday")
	assert.Equal(t, time.Friday, m.From.At.Weekday())
	require.Len(t, m.Rows, 2, "the person and the run")
	assert.Contains(t, strings.Join(m.Rows[0].Says, " "), "failed: nobody home")
	uitest.Shoot(t, win, "news")
	win.Canvas().Focus(v.Keyboard())
	uitest.Press(win, fyne.KeyReturn)
	assert.Equal(t, work.Target{Room: work.Person, Person: d.Persons["Tobin"]}, d.Opened[len(d.Opened)-1])

	m.Choose("since last evening")
	assert.Empty(t, m.Rows)
	assert.Contains(t, m.Title(), "0 otherwise than known on Sun 17:00")
	d.At(time.Date(2030, time.March, 12, 8, 0, 0, 0, uitest.Zone))
	assert.Equal(t, "since last evening", m.Offers()[0].Name, "on Tuesday")
}
