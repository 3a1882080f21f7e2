package book_test

import (
	"context"
	"fmt"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
)

// Writers move pieces between two things while readers add them up: the sum
// must never change, and no one may be turned away.
func testReadersSeeWholeActsWhileWritersWork(t *testing.T, fresh freshBook) {
	b := fresh(t, things)
	require.NoError(t, b.Write(ctx, func(tx *book.Tx) error {
		_, err := tx.Exec(`INSERT INTO thing (id, serial, pieces) VALUES (1, 'A', 100), (2, 'B', 0)`)
		return err
	}))
	move := func(tx *book.Tx) error {
		for id, change := range map[int]int{1: -1, 2: 1} {
			if _, err := tx.Exec(`UPDATE thing SET pieces = pieces + $1 WHERE id = $2`, change, id); err != nil {
				return err
			}
		}
		return nil
	}
	look := func(tx *book.Tx) error {
		var first, second int
		if err := tx.QueryRow(`SELECT pieces FROM thing WHERE id = 1`).Scan(&first); err != nil {
			return err
		}
		if err := tx.QueryRow(`SELECT pieces FROM thing WHERE id = 2`).Scan(&second); err != nil {
			return err
		}
		if first+second != 100 {
			return fmt.Errorf("%d and %d pieces, want 100 together", first, second)
		}
		return nil
	}
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			for range 25 {
				assert.NoError(t, b.Read(ctx, look))
			}
		})
	}
	for range 2 {
		all.Go(func() {
			for range 25 {
				assert.NoError(t, b.Write(ctx, move))
			}
		})
	}
	all.Wait()
	require.NoError(t, b.Read(ctx, func(tx *book.Tx) error {
		var moved int
		require.NoError(t, tx.QueryRow(`SELECT pieces FROM thing WHERE id = 2`).Scan(&moved))
		assert.Equal(t, 50, moved)
		return nil
	}))
}

func testAReadStandsAtOneMoment(t *testing.T, fresh freshBook) {
	b := fresh(t, things)
	require.NoError(t, b.Read(ctx, func(tx *book.Tx) error {
		count := func() (n int) {
			require.NoError(t, tx.QueryRow(`SELECT count(*) FROM thing`).Scan(&n))
			return n
		}
		assert.Equal(t, 0, count())
		require.NoError(t, b.Write(ctx, func(tx *book.Tx) error {
			_, err := addThing(tx, "R-1")
			return err
		}))
		assert.Equal(t, 0, count())
		return nil
	}))
	assert.Equal(t, 1, countThings(t, b))
}

func testAStoppedActWritesNothing(t *testing.T, fresh freshBook) {
	b := fresh(t, things)
	stoppable, stop := context.WithCancel(ctx)
	err := b.Write(stoppable, func(tx *book.Tx) error {
		_, err := addThing(tx, "R-1")
		require.NoError(t, err)
		stop()
		assert.ErrorIs(t, tx.Context().Err(), context.Canceled)
		return nil
	})
	assert.ErrorIs(t, err, context.Canceled)
	assert.ErrorIs(t, b.Write(stoppable, func(*book.Tx) error { return nil }), context.Canceled)
	assert.Equal(t, 0, countThings(t, b))
}

func testForeignKeysHoldOnEveryWrite(t *testing.T, fresh freshBook) {
	b := fresh(t, things)
	err := b.Write(ctx, func(tx *book.Tx) error {
		_, err := tx.Exec(`INSERT INTO fact (thing_id, at_ms, at_off) VALUES (77, 0, 0)`)
		return err
	})
	assert.Error(t, err)
}

// An instant keeps its millisecond and its offset through the two columns.
func testTimesComeBackAsTheyWereWritten(t *testing.T, fresh freshBook) {
	b := fresh(t, things)
	require.NoError(t, b.Write(ctx, func(tx *book.Tx) error {
		_, err := addThing(tx, "R-1")
		return err
	}))
	rapid.Check(t, func(r *rapid.T) {
		millis := rapid.Int64Range(-1<<41, 1<<42).Draw(r, "ms") // 1900 to 2109
		minutes := rapid.IntRange(-14*60, 14*60).Draw(r, "offset")
		want := time.UnixMilli(millis).In(time.FixedZone("", minutes*60))
		in := book.StampOf(want.Add(999 * time.Microsecond))
		var out book.Stamp
		require.NoError(r, b.Write(ctx, func(tx *book.Tx) error {
			id, err := tx.Insert(`INSERT INTO fact (thing_id, at_ms, at_off) VALUES (1, $1, $2) RETURNING id`, in.Millis, in.Offset)
			require.NoError(r, err)
			return tx.QueryRow(`SELECT at_ms, at_off FROM fact WHERE id = $1`, id).Scan(&out.Millis, &out.Offset)
		}))
		got := out.Time()
		if !got.Equal(want) || got.Format(time.RFC3339Nano) != want.Format(time.RFC3339Nano) {
			r.Fatalf("got %v, want %v", got, want)
		}
	})
}

func testATimeMayBeMissing(t *testing.T, fresh freshBook) {
	b := fresh(t)
	for _, want := range []time.Time{{}, booktest.Start, time.UnixMilli(0).UTC()} {
		in := book.MaybeStampOf(want)
		var out book.MaybeStamp
		require.NoError(t, b.Read(ctx, func(tx *book.Tx) error {
			return tx.QueryRow(`SELECT CAST($1 AS BIGINT), CAST($2 AS BIGINT)`, in.Millis, in.Offset).Scan(&out.Millis, &out.Offset)
		}))
		assert.Equal(t, want, out.Time())
		assert.Equal(t, want.IsZero(), !out.Millis.Valid)
	}
}

// BenchmarkWrite is one small act with its commit on the disk.
func BenchmarkWrite(b *testing.B) {
	bk := booktest.New(b, things)
	n := 0
	for b.Loop() {
		n++
		if err := bk.Write(ctx, func(tx *book.Tx) error {
			_, err := tx.Exec(`INSERT INTO thing (serial) VALUES ($1)`, n)
			return err
		}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkRead is one small look.
func BenchmarkRead(b *testing.B) {
	bk := booktest.New(b, things)
	for b.Loop() {
		countThings(b, bk)
	}
}
