package intake_test

import (
	"context"
	"fmt"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/intake"
	"lungwort/inventory/sheet"
)

// A hundred thousand rows: read and reasoned about within 15 s.
const manyRows = 100_000

func manyThings(rows int) string {
	var b strings.Builder
	b.WriteString("Serial,Kind,Size,Gauge (psi),Read at,Lot,Filled,Depot,Status\n")
	for i := range rows {
		fmt.Fprintf(&b, "E-%06d,cylinder,US-E,2000,2025-03-30 10:00,L%04dA,2025-03-01,harbour,ready\n", i, i/50)
	}
	return b.String()
}

func manyLoans(rows int) string {
	var b strings.Builder
	b.WriteString("Date out,Name,MRN,Ph,Conc #,Tank #,PSI,LPM,Date in,Depot\n")
	for i := range rows {
		fmt.Fprintf(&b, "2025-03-%02d,\"Abara%d, Ines\",1%05d,555-01%02d,CN%05d,E-%06d,2000,2,2025-03-%02d,harbour\n",
			1+i%20, i/4, i/4, i%100, i/10, i/5, 2+i%20)
	}
	return b.String()
}

// BenchmarkTakeIn reads a list against an empty book and writes it: within 30 s. The
// memory is what is held when all is written, the pause the longest time the
// progress stood still: under 200 ms; then the database commits.
func BenchmarkTakeIn(b *testing.B) {
	for name, text := range map[string]string{"things": manyThings(manyRows), "loans": manyLoans(manyRows)} {
		b.Run(name, func(b *testing.B) {
			for range b.N {
				d := newDesk(b)
				tables, err := sheet.Read(context.Background(), name+".csv", []byte(text))
				require.NoError(b, err)
				r := d.read(intake.Answers{"size:E": "US-E"}, tables...)
				require.Equal(b, manyRows, r.Taken)
				held, pause := 0.0, time.Duration(0)
				b.ResetTimer()
				last := time.Now()
				_, err = d.TakeIn(context.Background(), r, d.hand(), func(share float64) {
					pause, last = max(pause, time.Since(last)), time.Now()
					if share == 1 {
						b.StopTimer()
						var m runtime.MemStats
						runtime.GC()
						runtime.ReadMemStats(&m)
						held = float64(m.HeapAlloc) / (1 << 20)
						last = time.Now()
						b.StartTimer()
					}
				})
				require.NoError(b, err)
				b.ReportMetric(float64(time.Since(last).Milliseconds()), "ms-commit")
				b.ReportMetric(held, "MB-held")
				b.ReportMetric(float64(pause.Milliseconds()), "ms-longest-pause")
				runtime.KeepAlive(tables)
			}
		})
	}
}

func BenchmarkRead(b *testing.B) {
	for name, text := range map[string]string{"things": manyThings(manyRows), "loans": manyLoans(manyRows)} {
		tables, err := sheet.Read(context.Background(), name+".csv", []byte(text))
		require.NoError(b, err)
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			pause, last := time.Duration(0), time.Now()
			for range b.N {
				last = time.Now()
				r, err := intake.Read(context.Background(), tables, intake.Known{}, delivery.NewProgramme(),
					intake.Answers{"size:E": "US-E"}, time.Date(2025, 4, 2, 9, 0, 0, 0, time.UTC), func(float64) {
						pause, last = max(pause, time.Since(last)), time.Now()
					})
				pause = max(pause, time.Since(last))
				require.NoError(b, err)
				require.Equal(b, manyRows, r.Taken)
			}
			b.ReportMetric(float64(pause.Milliseconds()), "ms-longest-pause")
		})
	}
}
