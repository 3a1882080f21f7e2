package book_test

import (
	"context"
	"errors"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
	"lungwort/inventory/refusal"
)

// onServer makes a book on the shared server and returns its address.
func onServer(t *testing.T, o book.Options) string {
	t.Helper()
	s := booktest.Shared(t)
	address := s.URL(s.Empty(t))
	b, err := book.Create(ctx, address, o)
	require.NoError(t, err)
	require.NoError(t, b.Close())
	return address
}

// opened opens the book at an address until the test ends.
func opened(t *testing.T, address string, o book.Options) *book.Book {
	t.Helper()
	b, err := book.Open(ctx, address, o)
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, b.Close()) })
	return b
}

func TestABookOnAServerIsMadeOnceAndNeverOverOthers(t *testing.T) {
	s := booktest.Shared(t)
	name := s.Empty(t)
	address := s.URL(name)
	for open, f := range openers {
		_, err := f(ctx, address, withThings)
		assert.Equal(t, refusal.NotFound, refusal.KindOf(err), "%s: %v", open, err)
	}
	_, err := book.Open(ctx, s.URL("nowhere"), withThings)
	assert.Equal(t, refusal.NotFound, refusal.KindOf(err), "%v", err)
	assert.ErrorContains(t, err, "There is no database nowhere on this machine")

	s.Run(t, name, `CREATE TABLE theirs (id BIGINT)`)
	_, err = book.Create(ctx, address, withThings)
	assert.Equal(t, refusal.Foreign, refusal.KindOf(err), "%v", err)
	assert.ErrorContains(t, err, "it holds theirs")
	s.Run(t, name, `DROP TABLE theirs`)

	_, err = book.Create(ctx, address, with(things, steps("late", "001_a.sql", `CREATE TABEL a;`)))
	assert.ErrorContains(t, err, "late/001_a.sql")
	b, err := book.OpenOrCreate(ctx, address, withThings)
	require.NoError(t, err, "a book that can't be finished is not left behind")
	require.NoError(t, b.Close())
	_, err = book.Create(ctx, address, withThings)
	assert.Equal(t, refusal.Conflict, refusal.KindOf(err), "%v", err)
	assert.NoError(t, opened(t, address, withThings).Check(ctx))
}

func TestAnAbandonedBookLeavesAnEmptyDatabase(t *testing.T) {
	s := booktest.Shared(t)
	address := s.URL(s.Empty(t))
	for range 2 {
		b, err := book.Create(ctx, address, withThings)
		require.NoError(t, err)
		require.NoError(t, b.Abandon())
	}
	kept := opened(t, onServer(t, withThings), withThings)
	again, err := book.Open(ctx, address, withThings)
	assert.Equal(t, refusal.NotFound, refusal.KindOf(err), "%v", err)
	assert.Nil(t, again)
	assert.Zero(t, countThings(t, kept))
}

func TestABookOnAServerIsBroughtUpToDateOnce(t *testing.T) {
	address := onServer(t, with(things))
	old := opened(t, address, with(things))
	later := with(things, steps("later", "001_note.sql", noteTable))
	_, err := book.OpenReadOnly(ctx, address, later)
	assert.Equal(t, refusal.Unready, refusal.KindOf(err), "%v", err)
	opened(t, address, later)
	opened(t, address, later)

	_, err = book.Open(ctx, address, with(things))
	assert.Equal(t, refusal.Newer, refusal.KindOf(err), "%v", err)
	err = old.Write(ctx, func(tx *book.Tx) error {
		_, err := addThing(tx, "R-1")
		return err
	})
	assert.Equal(t, refusal.Newer, refusal.KindOf(err), "a desk left open must not write by old rules: %v", err)
	assert.Zero(t, countThings(t, old), "but it may look")

	edited := steps("things", "001_thing.sql", thingTable+"\n-- edited", "002_fact.sql", factTable)
	_, err = book.Open(ctx, onServer(t, with(things)), with(edited))
	assert.Equal(t, refusal.Foreign, refusal.KindOf(err), "%v", err)
}

// An act that got into the way of another is run again, and told only when it
// never gets through. The codes are those of the server's documentation,
// appendix A.
func TestAnActThatGotInTheWayIsDoneAgain(t *testing.T) {
	b := booktest.OnServer(t, things)
	for _, code := range []string{"40001", "40P01"} {
		runs := 0
		require.NoError(t, b.Write(ctx, func(tx *book.Tx) error {
			runs++
			if _, err := addThing(tx, fmt.Sprintf("%s-%d", code, runs)); err != nil || runs == 3 {
				return err
			}
			return raise(tx, code)
		}), code)
		assert.Equal(t, 3, runs, code)
		runs = 0
		err := b.Write(ctx, func(tx *book.Tx) error {
			runs++
			return raise(tx, code)
		})
		assert.Equal(t, refusal.Busy, refusal.KindOf(err), "%v", err)
		assert.Equal(t, 5, runs, code)
	}
	assert.Equal(t, 2, countThings(t, b), "nothing of the runs before the last")
}

// raise lets the server answer with a code.
func raise(tx *book.Tx, code string) error {
	_, err := tx.Exec(`DO $$ BEGIN RAISE EXCEPTION 'as if' USING ERRCODE = '` + code + `'; END $$`)
	return err
}

// What the server answers is told in a sentence with a next step.
func TestWhatTheServerAnswersIsTold(t *testing.T) {
	b := booktest.OnServer(t, things)
	for code, want := range map[string]struct {
		kind refusal.Kind
		says string
	}{
		"53100": {refusal.Unready, "The disk of the server that holds"},
		"53300": {refusal.Busy, "has no place for another desk"},
		"55P03": {refusal.Busy, "is writing something long"},
		"42501": {refusal.ReadOnly, "keeper may not do this"},
		"25006": {refusal.ReadOnly, "takes no writing now"},
		"28P01": {refusal.Locked, "did not let keeper in"},
		"57P03": {refusal.Unreachable, "is starting up"},
		"XX001": {refusal.Damaged, "is damaged"},
		"22021": {refusal.Invalid, "holds a sign that can't be kept"},
	} {
		err := b.Write(ctx, func(tx *book.Tx) error { return raise(tx, code) })
		var r *refusal.Error
		require.ErrorAs(t, err, &r, code)
		assert.Equal(t, want.kind, r.Kind, code)
		assert.Contains(t, r.Says, want.says, code)
		assert.NotEmpty(t, r.Next, code)
	}
}

// Two programs add to the same thing at once: each act is decided on what the
// one before it wrote.
func TestActsOfTwoDesksTakeTurns(t *testing.T) {
	address := onServer(t, withThings)
	first, second := opened(t, address, withThings), opened(t, address, withThings)
	require.NoError(t, first.Write(ctx, func(tx *book.Tx) error {
		_, err := tx.Exec(`INSERT INTO thing (id, serial, pieces) VALUES (1, 'A', 0)`)
		return err
	}))
	const each = 20
	add := func(b *book.Book, done chan<- error) {
		var err error
		for range each {
			err = errors.Join(err, b.Write(ctx, func(tx *book.Tx) error {
				var pieces int
				if err := tx.QueryRow(`SELECT pieces FROM thing WHERE id = 1`).Scan(&pieces); err != nil {
					return err
				}
				_, err := tx.Exec(`UPDATE thing SET pieces = $1 WHERE id = 1`, pieces+1)
				return err
			}))
		}
		done <- err
	}
	done := make(chan error)
	go add(first, done)
	go add(second, done)
	require.NoError(t, <-done)
	require.NoError(t, <-done)
	require.NoError(t, first.Read(ctx, func(tx *book.Tx) error {
		var pieces int
		err := tx.QueryRow(`SELECT pieces FROM thing WHERE id = 1`).Scan(&pieces)
		assert.Equal(t, 2*each, pieces)
		return err
	}))
}

// heard is what a listening desk was told.
type heard struct {
	news book.News
	why  error
}

// listen lets a desk listen until the test ends.
func listen(t *testing.T, b *book.Book) <-chan heard {
	t.Helper()
	told := make(chan heard, 100)
	listening, stop := context.WithCancel(ctx)
	ended := make(chan error)
	go func() { ended <- b.Listen(listening, func(n book.News, why error) { told <- heard{n, why} }) }()
	t.Cleanup(func() {
		stop()
		assert.ErrorIs(t, <-ended, context.Canceled)
	})
	return told
}

// next returns what is heard next; it must not take long.
func next(t *testing.T, told <-chan heard) heard {
	t.Helper()
	select {
	case h := <-told:
		return h
	case <-time.After(30 * time.Second):
		require.Fail(t, "nothing was heard")
		return heard{}
	}
}

func writeThing(t *testing.T, b *book.Book, serial string) {
	t.Helper()
	require.NoError(t, b.Write(ctx, func(tx *book.Tx) error {
		_, err := addThing(tx, serial)
		return err
	}))
}

func TestADeskHearsOthersButNotItself(t *testing.T) {
	address := onServer(t, withThings)
	here, there := opened(t, address, withThings), opened(t, address, withThings)
	told := listen(t, here)
	// Whether it listens already shows only by being told.
	for n, h := 0, (heard{}); h.news == ""; n++ {
		writeThing(t, there, fmt.Sprint("try ", n))
		select {
		case h = <-told:
			assert.Equal(t, heard{news: book.Written}, h)
		case <-time.After(200 * time.Millisecond):
		}
	}
	writeThing(t, here, "own")
	writeThing(t, there, "theirs")
	before := countThings(t, here)
	h := next(t, told)
	assert.Equal(t, book.Written, h.news)
	assert.Equal(t, before, countThings(t, here))
	assert.Empty(t, told, "own acts are no news")

	file := booktest.New(t, things)
	assert.Empty(t, listen(t, file), "of a file nothing is heard")
}

// A server that goes away and comes back, at the same place or another: what
// can't be done is told, and everything goes on by itself.
func TestADeskComesBackByItself(t *testing.T) {
	s, err := booktest.NewServer()
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, s.Remove()) })
	other, err := booktest.NewServer() // nothing of ours is there
	require.NoError(t, err)
	require.NoError(t, other.Stop())
	t.Cleanup(func() { assert.NoError(t, other.Remove()) })
	name := s.Empty(t)
	// Two addresses for one book: the first is down.
	address := fmt.Sprintf("postgres://keeper@127.0.0.1:%d,127.0.0.1:%d/%s?sslmode=disable", other.Port(), s.Port(), name)
	b, err := book.Create(ctx, address, withThings)
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, b.Close()) })
	writeThing(t, b, "before")
	told := listen(t, b)

	require.NoError(t, s.Stop())
	h := next(t, told)
	assert.Equal(t, book.Lost, h.news)
	assert.Equal(t, refusal.Unreachable, refusal.KindOf(h.why), "%v", h.why)
	for what, err := range map[string]error{
		"write": b.Write(ctx, func(tx *book.Tx) error { _, err := addThing(tx, "meanwhile"); return err }),
		"read":  b.Read(ctx, func(tx *book.Tx) error { return nil }),
	} {
		assert.Equal(t, refusal.Unreachable, refusal.KindOf(err), "%s: %v", what, err)
		assert.ErrorContains(t, err, "nothing was written", what)
	}
	require.NoError(t, s.Start())
	assert.Equal(t, heard{news: book.Back}, next(t, told))
	writeThing(t, b, "after")
	assert.Equal(t, 2, countThings(t, b))

	// A restart between two acts, or within one, is not even noticed.
	runs := 0
	require.NoError(t, b.Write(ctx, func(tx *book.Tx) error {
		if runs++; runs == 1 {
			require.NoError(t, s.Stop())
			require.NoError(t, s.Start())
		}
		_, err := addThing(tx, "through a restart")
		return err
	}))
	assert.Equal(t, 2, runs)
	assert.Equal(t, 3, countThings(t, b))
	for h := next(t, told); h.news != book.Back; h = next(t, told) {
		assert.Equal(t, book.Lost, h.news)
	}
}

// When the connection breaks while an act is being ended nobody can say whether
// it was written: that is told, and the act is not done again by itself.
func TestABreakAtTheMomentOfWritingIsTold(t *testing.T) {
	s := booktest.Shared(t)
	name := s.Empty(t)
	b, err := book.Create(ctx, s.URL(name), withThings)
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, b.Close()) })
	s.Run(t, name, `
		CREATE FUNCTION breaks() RETURNS trigger LANGUAGE plpgsql AS
		$$ BEGIN PERFORM pg_terminate_backend(pg_backend_pid()); PERFORM pg_sleep(10); RETURN NULL; END $$`, `
		CREATE CONSTRAINT TRIGGER at_the_end AFTER INSERT ON thing DEFERRABLE INITIALLY DEFERRED
		FOR EACH ROW EXECUTE FUNCTION breaks()`)
	runs := 0
	err = b.Write(ctx, func(tx *book.Tx) error {
		runs++
		_, err := addThing(tx, "R-1")
		return err
	})
	assert.Equal(t, refusal.Unreachable, refusal.KindOf(err), "%v", err)
	assert.ErrorContains(t, err, "broke at the moment of writing. Look whether it is there")
	assert.Equal(t, 1, runs)
	s.Run(t, name, `DROP TRIGGER at_the_end ON thing`)
	writeThing(t, b, "R-2")
	assert.Equal(t, 1, countThings(t, b))
}
