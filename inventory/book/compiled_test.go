package book_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
)

func TestStatementsAreKeptForTheNextTransactions(t *testing.T) {
	b := booktest.New(t, things)
	count := func(tx *book.Tx) error {
		var n int
		return tx.QueryRow(`SELECT count(*) FROM thing`).Scan(&n)
	}
	require.NoError(t, b.Read(ctx, count))
	assert.Empty(t, b.Compiled(), "the first compiles for itself alone")
	require.NoError(t, b.Read(ctx, count))
	assert.Equal(t, []string{`SELECT count(*) FROM thing`}, b.Compiled())

	for n := range 1000 { // lists of all lengths
		require.NoError(t, b.Read(ctx, func(tx *book.Tx) error {
			return countAmong(tx, strings.Repeat(", 0", n))
		}))
	}
	assert.LessOrEqual(t, len(b.Compiled()), book.MostCompiled)
}

func countAmong(tx *book.Tx, list string) error {
	var n int
	return tx.QueryRow(fmt.Sprintf(`SELECT count(*) FROM thing WHERE id IN (0%s)`, list)).Scan(&n)
}

// An act that takes long and asks for ever new statements is not stopped by
// others that wait to begin.
func TestOthersWaitWhileStatementsAreCompiled(t *testing.T) {
	b := booktest.New(t, things)
	act := func(tx *book.Tx) error {
		for n := range 40 {
			if err := countAmong(tx, strings.Repeat(", 1", n)); err != nil {
				return err
			}
		}
		return nil
	}
	done := make(chan error)
	const desks = 8
	for range desks {
		go func() { done <- b.Write(ctx, act) }()
	}
	for range desks {
		select {
		case err := <-done:
			require.NoError(t, err)
		case <-time.After(time.Minute):
			t.Fatal("the acts stand in each other's way")
		}
	}
}

func TestAStatementThatCannotBeCompiledDisturbsNoOther(t *testing.T) {
	b := booktest.New(t, things)
	for range 2 {
		require.Error(t, b.Write(ctx, func(tx *book.Tx) error {
			_, err := tx.Exec(`UPDATE nothing SET pieces = 1`)
			return err
		}))
		require.NoError(t, b.Write(ctx, func(tx *book.Tx) error { return countAmong(tx, "") }))
	}
}
