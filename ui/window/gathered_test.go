package window

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/ui/draft"
	"lungwort/ui/plant"
	"lungwort/ui/stocktake"
	"lungwort/ui/work"
)

// What was scanned for a count or an exchange is there again when the program
// is started after a crash, and kept no more once it is taken off.
func TestScansOutliveACrash(t *testing.T) {
	file := filepath.Join(t.TempDir(), "half-typed.json")
	open := func(room work.Room) *stage {
		s := newStage(t)
		s.rooms[work.Stocktake], s.rooms[work.Plant] = stocktake.New(s.desk.Work), plant.New(s.desk.Work)
		keeper, err := draft.Open(file)
		require.NoError(t, err)
		s.KeepDrafts(keeper)
		s.Frame.Open(work.Target{Room: room})
		return s
	}
	for _, room := range []work.Room{work.Stocktake, work.Plant} {
		s := open(room)
		require.True(t, s.rooms[room].(scanning).Scan("E-20114"), room)
		was := s.rooms[room].(gathering).Gathered()
		require.Contains(t, was, "E-20114", room)

		again := open(work.Needs)
		again.drafts.offer("")
		assert.Contains(t, words(again.win), "Half typed", room)
		again.notice.Act()
		require.Equal(t, room, again.Frame.here.Room)
		assert.Empty(t, again.rooms[room].(gathering).Gathered(), "asked first")
		again.notice.Act()
		assert.Equal(t, was, again.rooms[room].(gathering).Gathered())
		assert.Len(t, again.drafts.keeper.Of(again.work.By), 1)

		again.rooms[room].(gathering).Regather(`{}`)
		assert.Empty(t, again.drafts.keeper.Of(again.work.By), "%s: nothing is left to keep", room)
		again.rooms[room].(gathering).Regather(`{half`)
		assert.Empty(t, again.rooms[room].(gathering).Gathered())
	}
}
