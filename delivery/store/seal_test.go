package store_test

import (
	"context"
	"database/sql"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	_ "modernc.org/sqlite"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
	"lungwort/inventory/gas"
)

// lived is a book file in which somebody had a cylinder and gave it back, and
// the number of the fact that handed it over.
func lived(t *testing.T) (path string, who inventory.PersonID, lent inventory.FactID) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "b.lungwort")
	b, err := book.Create(context.Background(), path, options())
	require.NoError(t, err)
	d := &desk{store.NewDesk(b), t, booktest.Start}
	d.do(delivery.Settings{Programme: oneDepot()})
	who = d.register("Abara")
	item := d.enrol(inventory.Spec{Kind: inventory.Cylinder, Size: "US-E", Serial: "E-1"}, 2000)
	d.do(delivery.Order{Person: who, Rest: 2, Hours: 24})
	for _, f := range d.do(delivery.Discharge{Person: who, HandOver: []delivery.Piece{{Item: item, Gauge: new(gas.PSI(2000))}}}).Facts {
		if _, is := f.Statement.(*inventory.Lent); is {
			lent = f.ID
		}
	}
	d.do(delivery.StopOxygen{Person: who, Reason: "recovered", OrderedBy: "clinic"})
	d.do(delivery.Return{Item: item, Depot: "harbour", Gauge: new(gas.PSI(300))})
	require.NoError(t, b.Close())
	return path, who, lent
}

func options() book.Options {
	return book.Options{Now: booktest.NewClock().Now, Sets: store.Migrations()}
}

func oneDepot() delivery.Programme {
	p := delivery.NewProgramme()
	p.Depots = []delivery.Site{{Name: "harbour"}}
	return p
}

// behind runs SQL on a book file behind the program's back.
func behind(t *testing.T, path string, statements ...string) {
	t.Helper()
	db, err := sql.Open("sqlite", path)
	require.NoError(t, err)
	defer db.Close()
	for _, s := range statements {
		_, err := db.Exec(s)
		require.NoError(t, err, s)
	}
}

func audited(t *testing.T, path string) []string {
	t.Helper()
	b, err := book.Open(context.Background(), path, options())
	require.NoError(t, err)
	defer b.Close()
	a, err := store.NewDesk(b).Audit(context.Background())
	require.NoError(t, err)
	return a.Mismatches
}

// Whoever changes, removes or adds a fact behind the program's back is told
// on, with the fact.
func TestAuditNamesTheFactThatWasTamperedWith(t *testing.T) {
	const free = `DROP TRIGGER fact_never_changes`
	for name, c := range map[string]struct {
		sql  []string
		says string
	}{
		"nothing":           {nil, ""},
		"changed":           {[]string{free, `UPDATE fact SET body = '{"hours":1}' WHERE says = 'observed' AND person_id IS NULL`}, `^fact \d+ was changed after it was recorded \(item i000001\)$`},
		"backdated":         {[]string{free, `UPDATE fact SET happened = happened - 60000 WHERE says = 'lent'`}, `^fact \d+ was changed after it was recorded \(item i000001\)$`},
		"signed by another": {[]string{free, `UPDATE fact SET by_whom = 'somebody' WHERE says = 'stopped'`}, `^fact \d+ was changed after it was recorded \(person p00001\)$`},
		"removed":           {[]string{`DROP TRIGGER fact_never_goes`, `DELETE FROM fact WHERE says = 'serving'`}, `^fact \d+ was sealed and is gone$`},
		"removed whole":     {[]string{`DROP TRIGGER fact_never_goes`, `DROP TRIGGER fact_seal_never_goes`, `DELETE FROM fact_seal WHERE fact_id IN (SELECT id FROM fact WHERE says = 'serving')`, `DELETE FROM fact WHERE says = 'serving'`}, `^the chain of item i000001 breaks at fact \d+`},
		"slipped in": {[]string{`INSERT INTO fact (says, happened, happened_offset, recorded, by_whom, source, item_id, body)
			SELECT 'moved', happened, 0, recorded, 'x', 'keyed', item_id, '{"to":"retired"}' FROM fact WHERE says = 'returned'`}, `^fact \d+ has no seal`},
		"salt taken without an erasing": {[]string{`UPDATE identity SET salt = ''`}, `^fact \d+ was changed`},
	} {
		path, _, _ := lived(t)
		behind(t, path, c.sql...)
		wrong := audited(t, path)
		if c.says == "" {
			assert.Empty(t, wrong, name)
			continue
		}
		found := false
		for _, w := range wrong {
			found = found || assert.ObjectsAreEqual(true, assert.Regexp(quiet{}, c.says, w))
		}
		assert.True(t, found, "%s: %v", name, wrong)
	}
}

// quiet lets an assertion fail without failing the test.
type quiet struct{}

func (quiet) Errorf(string, ...any) {}

// A book made before there were seals gets them, and what is worked out anew
// is worked out by today's rules, when it is brought up to date.
func TestAnOlderBookIsSealedWhenItIsBroughtUpToDate(t *testing.T) {
	path, who, _ := lived(t)
	behind(t, path,
		`DROP TABLE fact_seal`, `DROP INDEX person_now_asks`, `DROP INDEX item_now_asks`,
		`ALTER TABLE identity DROP COLUMN salt`, `ALTER TABLE person_now DROP COLUMN asks`, `ALTER TABLE item_now DROP COLUMN asks`,
		`UPDATE person_now SET body = '{}'`,
		`DELETE FROM book_migration WHERE file LIKE '002_questions%'`)
	assert.Empty(t, audited(t, path))
	b, err := book.Open(context.Background(), path, options())
	require.NoError(t, err)
	defer b.Close()
	page, err := store.NewDesk(b).Page(context.Background(), who, booktest.Start)
	require.NoError(t, err)
	assert.Equal(t, delivery.Over, page.Care.Phase)
}

// Erasing somebody takes the salt, and breaks no chain; what happens to their
// facts afterwards is still told.
func TestErasingBreaksNoChain(t *testing.T) {
	path, who, lent := lived(t)
	b, err := book.Open(context.Background(), path, options())
	require.NoError(t, err)
	d := &desk{store.NewDesk(b), t, booktest.Start}
	d.do(delivery.Erase{Person: who, Why: "asked for", Sooner: true})
	d.do(delivery.Retract{Fact: lent, Why: "a later fact about somebody erased"})
	page, err := d.Page(context.Background(), who, d.now)
	require.NoError(t, err)
	assert.Equal(t, "erased person p00001", page.Person.Name())
	assert.Empty(t, page.Address.Street)
	require.NoError(t, b.Close())
	assert.Empty(t, audited(t, path))
	behind(t, path, `DROP TRIGGER fact_never_changes`, `UPDATE fact SET happened = happened - 1 WHERE says = 'retracted'`)
	assert.Contains(t, audited(t, path)[len(audited(t, path))-1], "was changed after it was recorded")
}
