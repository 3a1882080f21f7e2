package paper_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/labels/paper"
	"lungwort/labels/scene"
)

// darkMill is the list of a power cut that touches so many homes.
func darkMill(homes int) paper.OutageList {
	list := paper.OutageList{
		Head: head(""), Where: "on Mill line", From: at(18, 0), Until: at(26, 0),
		Verdict: scene.Short, Says: "gas ends within 8 h in 2 of 3 homes",
		Do: []string{"Send 13 E; 15 are ready", "Call 3 homes now, in the order of the list"}, Stock: "15 E, 6 D ready",
	}
	for i := range homes {
		cover := 2*time.Hour + time.Duration(i)*17*time.Minute
		ends := at(18, 0).Add(cover)
		list.Homes = append(list.Homes, paper.OutageHome{
			Verdict: scene.Short, Name: fmt.Sprintf("Achterberg, Ines %d", i+1), Street: "Kelp Street 22, Ness",
			Phones: []paper.Phone{{Number: "555-0142"}, {Whose: "daughter", Number: "555-0199"}},
			Gas:    "E 1,800 psi told 09:10, counted at 3 L/min", Cover: cover, Ends: ends, Call: at(17, 0), NoCover: i == 1,
			Next: "bring 2 E before " + ends.Format("15:04"),
			Ribbon: scene.RibbonData{Now: at(17, 0), Horizon: 9 * time.Hour, Low: ends, Mid: ends.Add(time.Hour), High: ends.Add(2 * time.Hour), ActBy: ends,
				Outages: []scene.Span{{From: at(18, 0), To: at(26, 0)}}},
		})
	}
	return list
}

func TestOutageList(t *testing.T) {
	pdf, result := mustPrint(t, darkMill(30))
	require.LessOrEqual(t, result.Pages, 5, "thirty homes are a few pages")
	sides := strings.Split(strings.TrimRight(text(t, pdf), "\f"), "\f")
	for _, side := range sides {
		assert.Contains(t, side, "Emergency", "the number stands on every page")
		assert.Contains(t, side, "again at", "and the heading of what to write")
	}
	assert.Contains(t, sides[0], "gas ends within 8 h")
	assert.Contains(t, sides[0], "turned down to save gas")
	assert.Contains(t, sides[0], "short, not known")
	assert.Contains(t, sides[0], "until 20:34")
	for _, box := range []string{"runs", "on backup", "turned down", "no answer"} {
		assert.Contains(t, sides[0], box)
	}
}
