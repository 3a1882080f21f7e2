package store_test

import (
	"context"
	"database/sql"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
	"lungwort/inventory/gas"
)

// BenchmarkActAgainstBareInsert does an act of a desk and, in turn with it, one
// insert of as many bytes as the act wrote, put onto the same disk by the same
// database with the same settings. It reports how many times as long the act
// takes; the promise is at most 3.
func BenchmarkActAgainstBareInsert(b *testing.B) {
	ctx, dir := context.Background(), b.TempDir()
	opened, err := book.Create(ctx, filepath.Join(dir, "book.lungwort"), book.Options{Now: booktest.NewClock().Now, Sets: store.Migrations()})
	require.NoError(b, err)
	b.Cleanup(func() { require.NoError(b, opened.Close()) })
	desk, hand := store.NewDesk(opened), store.Hand{By: "Ines", Source: inventory.Keyed, At: booktest.Start}
	_, err = desk.Do(ctx, hand, delivery.Settings{Programme: oneDepot()})
	require.NoError(b, err)
	for _, act := range []struct {
		name string
		next func(n int) delivery.Act
	}{
		{"take in an item", func(n int) delivery.Act {
			return delivery.Enrol{Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E", Serial: serial(n)}, Depot: "harbour", Gauge: new(gas.PSI(2000)), Lot: "L1", Cleared: true}
		}},
		{"register a home", func(n int) delivery.Act {
			return delivery.Register{Person: delivery.Person{Family: serial(n)}, Address: delivery.Address{Street: "Kelp Street 22", Mains: delivery.MainsYes}}
		}},
		{"discharge with a cylinder", func(n int) delivery.Act {
			do := func(act delivery.Act) inventory.Fact {
				out, err := desk.Do(ctx, hand, act)
				require.NoError(b, err)
				return out.Facts[0]
			}
			cylinder := do(delivery.Enrol{Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E", Serial: "D" + serial(n)}, Depot: "harbour", Gauge: new(gas.PSI(2000)), Lot: "L1", Cleared: true})
			who := do(delivery.Register{Person: delivery.Person{Family: inLetters(n)}, Address: delivery.Address{Street: "Kelp Street 22", Mains: delivery.MainsYes}})
			do(delivery.Order{Person: who.Person, Rest: 2, Hours: 24})
			return delivery.Discharge{
				Person: who.Person, Ward: "6B", Arrives: hand.At.Add(time.Hour),
				HandOver: []delivery.Piece{{Item: cylinder.Item, Gauge: new(gas.PSI(2000))}},
			}
		}},
	} {
		b.Run(act.name, func(b *testing.B) {
			bare := bareTable(b, filepath.Join(b.TempDir(), "bare"))
			var acts, inserts time.Duration
			n := 0
			for b.Loop() {
				n++
				a := act.next(n)
				size := written(b, opened)
				began := time.Now()
				_, err := desk.Do(ctx, hand, a)
				require.NoError(b, err)
				acts += time.Since(began)
				bytes := make([]byte, written(b, opened)-size)
				began = time.Now()
				_, err = bare.Exec(`INSERT INTO bare (bytes) VALUES ($1)`, bytes)
				require.NoError(b, err)
				inserts += time.Since(began)
			}
			b.ReportMetric(float64(inserts.Microseconds())/float64(n), "µs/insert")
			b.ReportMetric(float64(acts)/float64(inserts), "times-bare")
		})
	}
}

func serial(n int) string { return "B-" + time.Duration(n).String() }

// bareTable is a table in a file of its own, written as carefully as a book.
func bareTable(b *testing.B, path string) *sql.DB {
	b.Helper()
	db, err := sql.Open("sqlite", path+"?_pragma=journal_mode(WAL)&_pragma=synchronous(FULL)&_txlock=immediate")
	require.NoError(b, err)
	db.SetMaxOpenConns(1)
	b.Cleanup(func() { require.NoError(b, db.Close()) })
	_, err = db.Exec(`CREATE TABLE bare (id INTEGER PRIMARY KEY, bytes BLOB)`)
	require.NoError(b, err)
	return db
}

// written is how many bytes the tables that an act writes hold.
func written(b *testing.B, opened *book.Book) (bytes int64) {
	b.Helper()
	require.NoError(b, opened.Read(context.Background(), func(tx *book.Tx) error {
		return tx.QueryRow(`
			SELECT (SELECT COALESCE(sum(length(body) + length(says) + 60), 0) FROM fact)
			     + (SELECT COALESCE(sum(length(digest) + length(seal) + 16), 0) FROM fact_seal)
			     + (SELECT COALESCE(sum(length(body) + 120), 0) FROM item_now)
			     + (SELECT COALESCE(sum(length(body) + 60), 0) FROM person_now)
			     + (SELECT COALESCE(sum(length(body) + 20), 0) FROM identity)`).Scan(&bytes)
	}))
	return bytes
}
