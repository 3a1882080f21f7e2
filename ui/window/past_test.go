package window

import (
	"context"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/ui/uitest"
	"lungwort/ui/work"
)

// The book as it was known, plainly marked, with nothing to enter, and back.
func TestLookBackAndBackToNow(t *testing.T) {
	p := launch(t, filepath.Join(t.TempDir(), "book.lungwort"))
	press(t, p.window, "New programme")
	ctx := context.Background()
	hand := store.Hand{By: "desk", Source: inventory.Keyed, At: uitest.Now}
	_, err := store.NewDesk(p.book).Do(ctx, hand, delivery.Register{Person: delivery.Person{Family: "Abara"}, Address: delivery.Address{Street: "Kelp Street 22"}})
	require.NoError(t, err)
	p.frame.Open(work.Target{Room: work.Homes})

	p.lookBack(uitest.Now.Add(-time.Minute), func(err error) { require.NoError(t, err) })
	assert.Contains(t, words(p.window), "As the book was known Tue 5 Mar 2030 16:19. Nothing can be entered here.")
	uitest.Shoot(t, p.window, "as-of")
	found, err := p.frame.work.Desk.Homes(ctx, "", 10)
	require.NoError(t, err)
	assert.Empty(t, found, "nobody was known then")
	assert.Equal(t, work.Homes, p.frame.here.Room, "the screen stays")
	_, err = p.frame.work.Desk.Do(ctx, hand, delivery.Outage{Area: "x", From: uitest.Now})
	assert.Error(t, err, "nothing is entered into the past")

	press(t, p.window, "Back to now")
	assert.NotContains(t, words(p.window), "As the book was known")
	found, err = p.frame.work.Desk.Homes(ctx, "", 10)
	require.NoError(t, err)
	assert.Len(t, found, 1)
	p.backToNow() // a second time there is nothing to leave
}
