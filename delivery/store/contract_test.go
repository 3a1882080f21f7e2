package store_test

import (
	"testing"

	"lungwort/delivery/store"
	"lungwort/delivery/store/storetest"
	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
)

// TestContract holds the embedded database to the contract of the stores.
func TestContract(t *testing.T) {
	storetest.Run(t, func(t *testing.T) *book.Book { return booktest.New(t, store.Migrations()...) })
}
