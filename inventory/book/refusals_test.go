package book_test

import (
	"bytes"
	"crypto/sha256"
	"database/sql"
	"encoding/binary"
	"encoding/hex"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
	"lungwort/inventory/refusal"
)

var withThings = book.Options{Now: booktest.NewClock().Now, Sets: []book.Set{things}}

// bytesOfABook returns the file of a closed book with 200 things in it.
func bytesOfABook(t testing.TB) []byte {
	t.Helper()
	path := filepath.Join(t.TempDir(), "book.lungwort")
	b, err := book.Create(ctx, path, withThings)
	require.NoError(t, err)
	require.NoError(t, b.Write(ctx, func(tx *book.Tx) error {
		for i := range 200 {
			if _, err := tx.Exec(`INSERT INTO thing (serial) VALUES ($1)`, i); err != nil {
				return err
			}
		}
		return nil
	}))
	require.NoError(t, b.Close())
	content, err := os.ReadFile(path)
	require.NoError(t, err)
	return content
}

// sums returns a checksum of every file in dir.
func sums(t testing.TB, dir string) map[string]string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	all := map[string]string{}
	for _, e := range entries {
		if !e.Type().IsRegular() {
			all[e.Name()] = e.Type().String()
			continue
		}
		content, err := os.ReadFile(filepath.Join(dir, e.Name()))
		require.NoError(t, err)
		sum := sha256.Sum256(content)
		all[e.Name()] = hex.EncodeToString(sum[:])
	}
	return all
}

// assertRefused opens path both ways and wants the refusal, with a sentence
// naming the file and a next step, and its folder as it was.
func assertRefused(t *testing.T, path string, o book.Options, kind refusal.Kind, says string) {
	t.Helper()
	before := sums(t, filepath.Dir(path))
	for name, open := range openers {
		_, err := open(ctx, path, o)
		var r *refusal.Error
		require.ErrorAs(t, err, &r, name)
		assert.Equal(t, kind, r.Kind, "%s: %v", name, err)
		assert.Contains(t, r.Says, path, name)
		assert.Contains(t, r.Says, says, name)
		assert.NotEmpty(t, r.Next, name)
	}
	assert.Equal(t, before, sums(t, filepath.Dir(path)), "the folder must be as it was")
}

func TestFilesThatAreNotBooksAreRefused(t *testing.T) {
	whole := bytesOfABook(t)
	relabelled := bytes.Clone(whole)
	binary.BigEndian.PutUint32(relabelled[68:], 0)
	for name, c := range map[string]struct {
		content []byte
		kind    refusal.Kind
		says    string
	}{
		"empty file":              {nil, refusal.Damaged, "is empty"},
		"text":                    {[]byte("serial,size\nA1,US-E\n"), refusal.Foreign, "is not a book"},
		"one letter":              {[]byte("S"), refusal.Damaged, "cut short"},
		"zip":                     {append([]byte("PK\x03\x04"), make([]byte, 500)...), refusal.Foreign, "is not a book"},
		"zeroes":                  {make([]byte, 8192), refusal.Foreign, "is not a book"},
		"other program's id":      {relabelled, refusal.Foreign, "is not a book"},
		"cut inside the header":   {whole[:60], refusal.Damaged, "cut short"},
		"cut after the header":    {whole[:100], refusal.Damaged, "cut short"},
		"cut inside a page":       {whole[:len(whole)-1], refusal.Damaged, "cut short"},
		"cut between two pages":   {whole[:len(whole)-4096], refusal.Damaged, "cut short"},
		"only its first page":     {whole[:4096], refusal.Damaged, "cut short"},
		"schema page overwritten": {overwritten(whole, 100, 4096), refusal.Damaged, "damaged"},
		"all but its header gone": {overwritten(whole, 100, len(whole)), refusal.Damaged, "damaged"},
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "some file")
			require.NoError(t, os.WriteFile(path, c.content, 0o600))
			assertRefused(t, path, withThings, c.kind, c.says)
		})
	}
}

func overwritten(whole []byte, from, to int) []byte {
	broken := bytes.Clone(whole)
	for i := from; i < to; i++ {
		broken[i] = 0xa5
	}
	return broken
}

func TestADatabaseOfAnotherProgramIsRefused(t *testing.T) {
	path := filepath.Join(t.TempDir(), "other.db")
	db := foreignConnection(t, path)
	_, err := db.Exec(`CREATE TABLE thing (id INTEGER PRIMARY KEY)`)
	require.NoError(t, err)
	require.NoError(t, db.Close())
	assertRefused(t, path, withThings, refusal.Foreign, "is not a book")
}

func TestABookWithoutItsRecordsIsDamaged(t *testing.T) {
	path := filepath.Join(t.TempDir(), "bare.lungwort")
	db := foreignConnection(t, path)
	_, err := db.Exec(`PRAGMA application_id = 0x4c756e67; CREATE TABLE thing (id INTEGER PRIMARY KEY)`)
	require.NoError(t, err)
	require.NoError(t, db.Close())
	assertRefused(t, path, withThings, refusal.Damaged, "damaged")
}

// foreignConnection is what any other SQLite program would open.
func foreignConnection(t *testing.T, path string) *sql.DB {
	t.Helper()
	db, err := sql.Open("sqlite", path)
	require.NoError(t, err)
	db.SetMaxOpenConns(1)
	t.Cleanup(func() { _ = db.Close() })
	return db
}

func TestAFolderIsRefused(t *testing.T) {
	path := filepath.Join(t.TempDir(), "folder")
	require.NoError(t, os.Mkdir(path, 0o700))
	assertRefused(t, path, withThings, refusal.Foreign, "is a folder")
}

func TestAMissingBookIsRefusedWhereverItIsMissing(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "file")
	require.NoError(t, os.WriteFile(file, []byte("x"), 0o600))
	require.NoError(t, os.Symlink(filepath.Join(dir, "nowhere"), filepath.Join(dir, "link")))
	assertRefused(t, filepath.Join(dir, "none"), withThings, refusal.NotFound, "There is no book")
	assertRefused(t, filepath.Join(dir, "link"), withThings, refusal.NotFound, "There is no book")
	for _, open := range openers {
		for _, path := range []string{filepath.Join(dir, "no folder", "b"), filepath.Join(file, "b")} {
			_, err := open(ctx, path, withThings)
			assert.Equal(t, refusal.NotFound, refusal.KindOf(err), "%s: %v", path, err)
		}
	}
}

func TestCreateRefusesWhatItWouldOverwriteOrCannotReach(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "file"), []byte("x"), 0o600))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "folder"), 0o700))
	require.NoError(t, os.Symlink(filepath.Join(dir, "nowhere"), filepath.Join(dir, "link")))
	before := sums(t, filepath.Join(dir, "folder"))
	for path, kind := range map[string]refusal.Kind{
		"file": refusal.Conflict, "folder": refusal.Conflict, "link": refusal.Conflict,
		"no such folder/b": refusal.NotFound,
	} {
		_, err := book.Create(ctx, filepath.Join(dir, path), withThings)
		assert.Equal(t, kind, refusal.KindOf(err), "%s: %v", path, err)
	}
	assert.Equal(t, before, sums(t, filepath.Join(dir, "folder")))
}

// A book with any of its bytes changed is opened or refused with a sentence;
// nothing panics, and a refused file stays as it was.
func TestADamagedBookIsNeverMoreThanRefused(t *testing.T) {
	whole := bytesOfABook(t)
	rapid.Check(t, func(r *rapid.T) {
		broken := bytes.Clone(whole)
		for range rapid.IntRange(1, 6).Draw(r, "places") {
			at := rapid.OneOf(rapid.IntRange(0, 300), rapid.IntRange(0, len(broken)-1)).Draw(r, "at")
			broken[at] = rapid.Byte().Draw(r, "byte")
		}
		broken = broken[:rapid.OneOf(rapid.Just(len(broken)), rapid.IntRange(0, len(broken))).Draw(r, "size")]
		dir, err := os.MkdirTemp(t.TempDir(), "")
		require.NoError(r, err)
		defer os.RemoveAll(dir)
		path := filepath.Join(dir, "b")
		require.NoError(r, os.WriteFile(path, broken, 0o600))
		b, err := book.Open(ctx, path, withThings)
		if err == nil {
			_ = b.Check(ctx)
			_ = b.Close()
			return
		}
		if refusal.KindOf(err) == refusal.Internal {
			r.Fatalf("got %v, want a refusal", err)
		}
		left, err := os.ReadFile(path)
		require.NoError(r, err)
		if !bytes.Equal(broken, left) {
			r.Fatalf("the refused file was changed")
		}
	})
}

func FuzzJudge(f *testing.F) {
	whole := bytesOfABook(f)
	f.Add(whole[:100], int64(len(whole)), false)
	f.Add([]byte("SQLite format 3\x00"), int64(16), true)
	f.Add([]byte{}, int64(0), false)
	f.Fuzz(func(t *testing.T, header []byte, size int64, withLog bool) {
		err := book.Judge("b", header, size, withLog)
		ours := len(header) >= 100 && bytes.HasPrefix(header, []byte("SQLite format 3\x00")) && string(header[68:72]) == "Lung"
		if err == nil && !ours {
			t.Errorf("Judge(%q) took a file that is not ours", header)
		}
		if err != nil && refusal.KindOf(err) == refusal.Internal {
			t.Errorf("Judge(%q) = %v, want a refusal", header, err)
		}
	})
}
