package book_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
	"lungwort/inventory/refusal"
)

func with(sets ...book.Set) book.Options {
	return book.Options{Now: booktest.NewClock().Now, Sets: sets}
}

type record struct {
	set, file string
	at        time.Time
}

func records(t *testing.T, b *book.Book) (list []record) {
	t.Helper()
	require.NoError(t, b.Read(ctx, func(tx *book.Tx) (err error) {
		list, err = book.List(tx, func(row book.Row) (r record, err error) {
			var at int64
			err = row.Scan(&r.set, &r.file, &at)
			r.at = book.FromInstant(at)
			return r, err
		}, `SELECT set_name, file, applied_at FROM book_migration ORDER BY rowid`)
		return err
	}))
	return list
}

const noteTable = `CREATE TABLE note (id {{ID}}, thing_id {{INT}} REFERENCES thing (id)){{STRICT}};`

func TestStepsAreAppliedInOrderOfSetsAndNamesOnceEach(t *testing.T) {
	clock := booktest.NewClock()
	path := filepath.Join(t.TempDir(), "b")
	b, err := book.Create(ctx, path, book.Options{Now: clock.Now, Sets: []book.Set{things}})
	require.NoError(t, err)
	require.NoError(t, b.Close())

	clock.Advance(24 * time.Hour)
	grown := steps("things", "001_thing.sql", thingTable, "002_fact.sql", factTable,
		"003_colour.sql", `ALTER TABLE thing ADD COLUMN colour {{TEXT}};`)
	b, err = book.Open(ctx, path, book.Options{Now: clock.Now, Sets: []book.Set{grown, steps("a", "001_note.sql", noteTable)}})
	require.NoError(t, err)
	defer b.Close()
	next := booktest.Start.Add(24 * time.Hour)
	assert.Equal(t, []record{
		{"things", "001_thing.sql", booktest.Start},
		{"things", "002_fact.sql", booktest.Start},
		{"things", "003_colour.sql", next},
		{"a", "001_note.sql", next},
	}, records(t, b))
}

func TestAFailingStepLeavesTheBookAsItWas(t *testing.T) {
	path := aBook(t, with(things))
	before := sums(t, filepath.Dir(path))
	for name, files := range map[string][]string{
		"wrong SQL":          {"001_a.sql", noteTable, "002_b.sql", `CREATE TABLE b (id {{ID}}); CREATE TABEL c;`},
		"unknown word":       {"001_a.sql", noteTable, "002_b.sql", `CREATE TABLE b (id {{NUMBER}});`},
		"row without parent": {"001_a.sql", noteTable, "002_b.sql", `INSERT INTO note (thing_id) VALUES (77);`},
	} {
		_, err := book.Open(ctx, path, with(things, steps("late", files...)))
		assert.ErrorContains(t, err, "late/002_b.sql", name)
		assert.Equal(t, before, sums(t, filepath.Dir(path)), name)
	}
	b, err := book.Open(ctx, path, with(things))
	require.NoError(t, err, "the program that made it must still open it")
	defer b.Close()
	assert.Len(t, records(t, b), 2)
}

func TestABookThatCannotBeFinishedIsNotLeftBehind(t *testing.T) {
	dir := t.TempDir()
	_, err := book.Create(ctx, filepath.Join(dir, "b"), with(things, steps("late", "001_a.sql", `CREATE TABEL a;`)))
	assert.Error(t, err)
	assert.Empty(t, sums(t, dir))
}

func TestATableWithReferencesToItMayBeRebuilt(t *testing.T) {
	path := aBook(t, with(things))
	b, err := book.Open(ctx, path, with(things))
	require.NoError(t, err)
	require.NoError(t, b.Write(ctx, func(tx *book.Tx) error {
		id, err := addThing(tx, "R-1")
		require.NoError(t, err)
		_, err = tx.Exec(`INSERT INTO fact (thing_id, at_ms, at_off) VALUES ($1, 0, 0)`, id)
		return err
	}))
	require.NoError(t, b.Close())
	rebuild := steps("rebuild", "001_thing.sql", `
		CREATE TABLE thing_new (id {{ID}}, serial {{TEXT}} NOT NULL UNIQUE){{STRICT}};
		INSERT INTO thing_new (id, serial) SELECT id, serial FROM thing;
		DROP TABLE thing;
		ALTER TABLE thing_new RENAME TO thing;`)
	b, err = book.Open(ctx, path, with(things, rebuild))
	require.NoError(t, err)
	defer b.Close()
	assert.Equal(t, 1, countThings(t, b))
	assert.NoError(t, b.Check(ctx))
}

func TestABookOfANewerVersionIsRefused(t *testing.T) {
	path := aBook(t, with(things, steps("later", "001_note.sql", noteTable)))
	assertRefused(t, path, with(things), refusal.Newer, "newer version")
	assertRefused(t, path, with(), refusal.Newer, "newer version")
}

func TestANewerBookItsProgramDiedWithIsRefusedAndKept(t *testing.T) {
	path := aBook(t, with(things))
	startHolding(t, path)() // leaves a log with content beside the book
	main, err := os.ReadFile(path)
	require.NoError(t, err)
	log, err := os.ReadFile(path + "-wal")
	require.NoError(t, err)
	require.NotEmpty(t, log)
	for name, open := range openers {
		_, err := open(ctx, path, with())
		assert.Equal(t, refusal.Newer, refusal.KindOf(err), "%s: %v", name, err)
	}
	mainAfter, err := os.ReadFile(path)
	require.NoError(t, err)
	logAfter, err := os.ReadFile(path + "-wal")
	require.NoError(t, err)
	assert.Equal(t, main, mainAfter)
	assert.Equal(t, log, logAfter)
}

func TestABookWithAnEditedStepIsRefused(t *testing.T) {
	path := aBook(t, with(things))
	edited := steps("things", "001_thing.sql", thingTable+"\n-- edited", "002_fact.sql", factTable)
	assertRefused(t, path, with(edited), refusal.Foreign, "things/001_thing.sql")
}

func TestTheLineEndsOfAStepDoNotMatter(t *testing.T) {
	path := aBook(t, with(things))
	windows := steps("things",
		"001_thing.sql", strings.ReplaceAll(thingTable, "\n", "\r\n"),
		"002_fact.sql", strings.ReplaceAll(factTable, "\n", "\r\n"))
	b, err := book.Open(ctx, path, with(windows))
	require.NoError(t, err)
	assert.NoError(t, b.Close())
}

func TestALookDoesNotBringABookUpToDate(t *testing.T) {
	path := aBook(t, with(things))
	before := sums(t, filepath.Dir(path))
	_, err := book.OpenReadOnly(ctx, path, with(things, steps("later", "001_note.sql", noteTable)))
	assert.Equal(t, refusal.Unready, refusal.KindOf(err), "%v", err)
	assert.ErrorContains(t, err, "older version")
	assert.Equal(t, before, sums(t, filepath.Dir(path)))
}

func TestStepsMustBeNamedInOrder(t *testing.T) {
	for _, name := range []string{"1_a.sql", "001-a.sql", "001_a.txt", "001_A.sql", "readme.md"} {
		_, err := book.Create(ctx, filepath.Join(t.TempDir(), "b"), with(steps("s", name, `SELECT 1;`)))
		assert.ErrorContains(t, err, name)
	}
}

func TestWordsOfTheDialectAreWrittenOut(t *testing.T) {
	for text, want := range map[string]string{
		"a {{ID}}, b {{INT}}": "a INTEGER PRIMARY KEY, b INTEGER",
		"){{STRICT}};":        ") STRICT;",
		"{ {ID} } {}":         "{ {ID} } {}",
	} {
		got, err := book.SQLiteDialect.Expand(text)
		assert.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
	for _, text := range []string{"{{id}}", "{{}}", "{{NUMBER}}", "{{ID thing}}", "{{APPEND_ONLY}}", "{{APPEND_ONLY a b}}", "{{APPEND_ONLY a;}}"} {
		_, err := book.SQLiteDialect.Expand(text)
		assert.Error(t, err, text)
	}
}
