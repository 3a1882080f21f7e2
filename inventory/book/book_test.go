package book_test

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
	"lungwort/inventory/refusal"
)

var ctx = context.Background()

// openers are the ways to open a book that must exist.
var openers = map[string]func(context.Context, string, book.Options) (*book.Book, error){
	"Open":         book.Open,
	"OpenReadOnly": book.OpenReadOnly,
}

// steps is a set of migrations given as file name, text, file name, text.
func steps(name string, files ...string) book.Set {
	fsys := fstest.MapFS{}
	for i := 0; i < len(files); i += 2 {
		fsys[files[i]] = &fstest.MapFile{Data: []byte(files[i+1])}
	}
	return book.Set{Name: name, Files: fsys}
}

const thingTable = `
CREATE TABLE thing (
	id     {{ID}},
	serial {{TEXT}} NOT NULL UNIQUE,
	kg     {{REAL}},
	pieces {{INT}},
	photo  {{BLOB}}
){{STRICT}};`

const factTable = `
CREATE TABLE fact (
	id       {{ID}},
	thing_id {{INT}} NOT NULL REFERENCES thing (id),
	at_ms    {{INT}} NOT NULL,
	at_off   {{INT}} NOT NULL,
	note     {{TEXT}}
){{STRICT}};
{{APPEND_ONLY fact}}`

var things = steps("things", "001_thing.sql", thingTable, "002_fact.sql", factTable)

func addThing(tx *book.Tx, serial string) (int64, error) {
	return tx.Insert(`INSERT INTO thing (serial) VALUES ($1) RETURNING id`, serial)
}

func countThings(t testing.TB, b *book.Book) int {
	t.Helper()
	var n int
	require.NoError(t, b.Read(ctx, func(tx *book.Tx) error {
		return tx.QueryRow(`SELECT count(*) FROM thing`).Scan(&n)
	}))
	return n
}

func TestWhatIsWrittenIsReadAfterReopening(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book.lungwort")
	o := book.Options{Now: booktest.NewClock().Now, Sets: []book.Set{things}}
	b, err := book.Create(ctx, path, o)
	require.NoError(t, err)
	require.NoError(t, b.Write(ctx, func(tx *book.Tx) error {
		_, err := addThing(tx, "R-1001")
		return err
	}))
	require.NoError(t, b.Close())

	b, err = book.Open(ctx, path, o)
	require.NoError(t, err)
	defer b.Close()
	assert.Equal(t, 1, countThings(t, b))
	assert.Equal(t, path, b.Path())
	assert.False(t, b.ReadOnly())
	assert.NoError(t, b.Check(ctx))
}

func TestOpenNeverMakesABook(t *testing.T) {
	path := filepath.Join(t.TempDir(), "none.lungwort")
	for name, open := range openers {
		_, err := open(ctx, path, book.Options{})
		assert.Equal(t, refusal.NotFound, refusal.KindOf(err), "%s: %v", name, err)
		assert.ErrorContains(t, err, path)
		assert.NoFileExists(t, path)
		assert.NoFileExists(t, path+".lock")
	}
}

func TestOpenOrCreateMakesItOnceAndThenOpensIt(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book.lungwort")
	o := book.Options{Sets: []book.Set{things}}
	for range 2 {
		b, err := book.OpenOrCreate(ctx, path, o)
		require.NoError(t, err)
		require.NoError(t, b.Write(ctx, func(tx *book.Tx) error {
			_, err := tx.Exec(`INSERT INTO thing (serial) SELECT 'S-' || count(*) FROM thing`)
			return err
		}))
		require.NoError(t, b.Close())
	}
	b, err := book.Open(ctx, path, o)
	require.NoError(t, err)
	defer b.Close()
	assert.Equal(t, 2, countThings(t, b))
}

func testAnErrorOrAPanicUndoesTheWholeAct(t *testing.T, fresh freshBook) {
	b := fresh(t, things)
	refused := errors.New("refused")
	err := b.Write(ctx, func(tx *book.Tx) error {
		_, err := addThing(tx, "R-1")
		require.NoError(t, err)
		return refused
	})
	assert.ErrorIs(t, err, refused)
	assert.PanicsWithValue(t, "broken", func() {
		_ = b.Write(ctx, func(tx *book.Tx) error {
			_, err := addThing(tx, "R-2")
			require.NoError(t, err)
			panic("broken")
		})
	})
	assert.Equal(t, 0, countThings(t, b))
	require.NoError(t, b.Write(ctx, func(tx *book.Tx) error {
		_, err := addThing(tx, "R-3")
		return err
	}), "the writer must be free again")
}

func TestTheClockIsFixedForAnActInWholeMilliseconds(t *testing.T) {
	clock := booktest.NewClock()
	local := time.Date(2030, 3, 4, 22, 5, 6, 789_999_999, time.FixedZone("", -9*3600))
	clock.Set(local)
	b := booktest.NewAt(t, clock, things)
	require.NoError(t, b.Write(ctx, func(tx *book.Tx) error {
		before := tx.Now
		clock.Advance(time.Hour)
		assert.Equal(t, before, tx.Now)
		assert.Equal(t, time.Date(2030, 3, 5, 7, 5, 6, 789_000_000, time.UTC), tx.Now)
		return nil
	}))
}

func testUniqueIsToldFromOtherFaults(t *testing.T, fresh freshBook) {
	b := fresh(t, things)
	add := func(query string, args ...any) error {
		return b.Write(ctx, func(tx *book.Tx) error {
			_, err := tx.Exec(query, args...)
			return err
		})
	}
	require.NoError(t, add(`INSERT INTO thing (id, serial) VALUES ($1, $2)`, 1, "A"))
	assert.True(t, book.IsUnique(add(`INSERT INTO thing (id, serial) VALUES ($1, $2)`, 2, "A")), "same serial")
	assert.True(t, book.IsUnique(add(`INSERT INTO thing (id, serial) VALUES ($1, $2)`, 1, "B")), "same id")
	assert.False(t, book.IsUnique(add(`INSERT INTO thing (id) VALUES ($1)`, 3)), "missing serial")
	assert.False(t, book.IsUnique(add(`INSERT INTO fact (thing_id, at_ms, at_off) VALUES ($1, 0, 0)`, 77)), "no such thing")
	assert.False(t, book.IsUnique(nil))
}

func testFactsAreNeverChangedOrRemoved(t *testing.T, fresh freshBook) {
	b := fresh(t, things)
	require.NoError(t, b.Write(ctx, func(tx *book.Tx) error {
		id, err := addThing(tx, "R-1")
		require.NoError(t, err)
		_, err = tx.Exec(`INSERT INTO fact (id, thing_id, at_ms, at_off, note) VALUES (1, $1, 0, 0, 'as it was')`, id)
		return err
	}))
	for _, query := range []string{
		`UPDATE fact SET note = 'otherwise' WHERE id = 1`,
		`DELETE FROM fact WHERE id = 1`,
		`DELETE FROM fact`,
		`INSERT INTO fact (id, thing_id, at_ms, at_off) VALUES (1, 1, 0, 0) ON CONFLICT (id) DO UPDATE SET note = 'otherwise'`,
	} {
		err := b.Write(ctx, func(tx *book.Tx) error {
			_, err := tx.Exec(query)
			return err
		})
		assert.ErrorContains(t, err, "fact is append-only", query)
	}
	require.NoError(t, b.Read(ctx, func(tx *book.Tx) error {
		var note string
		require.NoError(t, tx.QueryRow(`SELECT note FROM fact`).Scan(&note))
		assert.Equal(t, "as it was", note)
		return nil
	}))
}

func TestPlaceholdersMayRepeatAndPassNine(t *testing.T) {
	b := booktest.New(t)
	require.NoError(t, b.Read(ctx, func(tx *book.Tx) error {
		var got string
		err := tx.QueryRow(`SELECT $1 || $10 || $11 || $1 || $2`, "a", "b", "c", "d", "e", "f", "g", "h", "i", "j", "k").Scan(&got)
		assert.Equal(t, "ajkab", got)
		return err
	}))
}

func testListGivesRowsInOrderAndStopsAtAFault(t *testing.T, fresh freshBook) {
	b := fresh(t)
	number := func(r book.Row) (int, error) {
		var n int
		return n, r.Scan(&n)
	}
	require.NoError(t, b.Read(ctx, func(tx *book.Tx) error {
		got, err := book.List(tx, number, `VALUES (3), (1), (2)`)
		assert.Equal(t, []int{3, 1, 2}, got)
		return err
	}))
	for _, query := range []string{`VALUES (3), ('x')`, `SELECT no_such_column`} {
		assert.Error(t, b.Read(ctx, func(tx *book.Tx) error {
			_, err := book.List(tx, number, query)
			return err
		}), query)
	}
}

// REPLACE, which only the file knows, removes a row to write another.
func TestAFactIsNotReplaced(t *testing.T) {
	b := booktest.New(t, things)
	err := b.Write(ctx, func(tx *book.Tx) error {
		id, err := addThing(tx, "R-1")
		require.NoError(t, err)
		for range 2 {
			if _, err = tx.Exec(`REPLACE INTO fact (id, thing_id, at_ms, at_off) VALUES (1, $1, 0, 0)`, id); err != nil {
				return err
			}
		}
		return nil
	})
	assert.ErrorContains(t, err, "fact is append-only")
}

func TestTimesAreNotBoundAsTheDriverWouldWriteThem(t *testing.T) {
	b := booktest.New(t)
	require.NoError(t, b.Read(ctx, func(tx *book.Tx) error {
		_, err := tx.Exec(`SELECT $1`, tx.Now)
		assert.ErrorContains(t, err, "time.Time")
		assert.ErrorContains(t, tx.QueryRow(`SELECT $1`, &tx.Now).Scan(new(string)), "time.Time")
		_, err = tx.Query(`SELECT $1, $2`, 1, book.StampOf(tx.Now))
		assert.ErrorContains(t, err, "argument 2")
		return nil
	}))
}

func testReadsNeverWrite(t *testing.T, fresh freshBook) {
	b := fresh(t, things)
	err := b.Read(ctx, func(tx *book.Tx) error {
		_, err := addThing(tx, "R-1")
		return err
	})
	assert.Error(t, err)
	assert.Equal(t, 0, countThings(t, b))
}

func TestTheFileIsForItsUserAlone(t *testing.T) {
	b := booktest.New(t, things)
	require.NoError(t, b.Write(ctx, func(tx *book.Tx) error {
		_, err := addThing(tx, "R-1")
		return err
	}))
	for _, tail := range []string{"", "-wal", "-shm", ".lock"} {
		info, err := os.Stat(b.Path() + tail)
		require.NoError(t, err, tail)
		assert.Equal(t, fs.FileMode(0o600), info.Mode().Perm(), "book.lungwort%s", tail)
	}
}

func TestNothingLiesBesideAClosedBook(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book.lungwort")
	b, err := book.Create(ctx, path, book.Options{Sets: []book.Set{things}})
	require.NoError(t, err)
	require.NoError(t, b.Close())
	left, err := filepath.Glob(filepath.Join(filepath.Dir(path), "*"))
	require.NoError(t, err)
	assert.Equal(t, []string{path}, left)
	hidden, err := filepath.Glob(filepath.Join(filepath.Dir(path), ".*"))
	require.NoError(t, err)
	assert.Empty(t, hidden)
}

func TestAnyFileNameWillDo(t *testing.T) {
	for _, name := range []string{
		"a b.lungwort", "what?.lungwort", "no#1.lungwort", "50%.lungwort", "50%20.lungwort",
		"a&mode=ro.lungwort", "a+b;c=d.lungwort", "'quoted' \"twice\"", `back\slash`, "ünïcödé 氧.lungwort", "?", "new\nline",
	} {
		dir := filepath.Join(t.TempDir(), name)
		require.NoError(t, os.Mkdir(dir, 0o700))
		path := filepath.Join(dir, name)
		b, err := book.Create(ctx, path, book.Options{Sets: []book.Set{things}})
		require.NoError(t, err, name)
		require.NoError(t, b.Backup(ctx, path+".copy"), name)
		require.NoError(t, b.Close())
		entries, err := os.ReadDir(dir)
		require.NoError(t, err)
		require.Len(t, entries, 2, name)
		assert.Equal(t, name, entries[0].Name())
		assert.Equal(t, name+".copy", entries[1].Name())
	}
}

func TestDefaultPathIsInTheUsersOwnFolder(t *testing.T) {
	home := t.TempDir()
	for _, name := range []string{"XDG_CONFIG_HOME", "HOME", "AppData"} {
		t.Setenv(name, home)
	}
	path, err := book.DefaultPath()
	require.NoError(t, err)
	assert.Equal(t, "book.lungwort", filepath.Base(path))
	info, err := os.Stat(filepath.Dir(path))
	require.NoError(t, err)
	assert.Equal(t, fs.FileMode(0o700), info.Mode().Perm())
	assert.Equal(t, "lungwort", info.Name())
}
