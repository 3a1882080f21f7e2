package store_test

import (
	"fmt"
	"os"
	"testing"

	"go.uber.org/goleak"

	"lungwort/delivery/store"
	"lungwort/delivery/store/storetest"
	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
)

func TestMain(m *testing.M) {
	if path := os.Getenv(writesTo); path != "" {
		fmt.Fprintln(os.Stderr, writeUntilKilled(path))
		os.Exit(1)
	}
	goleak.VerifyTestMain(booktest.Serving{M: m})
}

// TestContract holds both databases a book can be kept in to the contract of
// the stores.
func TestContract(t *testing.T) {
	for name, fresh := range map[string]func(testing.TB, ...book.Set) *book.Book{
		"in a file":   booktest.New,
		"on a server": booktest.OnServer,
	} {
		t.Run(name, func(t *testing.T) {
			storetest.Run(t, func(t *testing.T) *book.Book { return fresh(t, store.Migrations()...) })
		})
	}
}
