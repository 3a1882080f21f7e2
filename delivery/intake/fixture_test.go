package intake_test

import (
	"context"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"lungwort/inventory/sheet"
)

func ledger(t *testing.T) sheet.Table {
	t.Helper()
	tables, err := sheet.ReadFile(context.Background(), filepath.Join("testdata", "ledger_as_it_is.csv"))
	require.NoError(t, err)
	return tables[0]
}

func TestLedger(t *testing.T) {
	d := newDesk(t)
	r := d.read(nil, ledger(t))
	dump(r)
}
func TestQuillet(t *testing.T) {
	d := newDesk(t)
	d.at = d.at.AddDate(5, 0, 0)
	for _, n := range []string{"items.csv", "people.csv", "ward.csv"} {
		tables, err := sheet.ReadFile(context.Background(), "../../testdata/quillet/"+n)
		require.NoError(t, err)
		dump(d.take(nil, tables...))
	}
}
