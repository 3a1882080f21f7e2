package sheet_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"lungwort/inventory/sheet"
)

const manyRows = 100_000

// manyLoans is a sheet of 100,000 rows and 12 columns of every kind.
func manyLoans() sheet.Out {
	out := sheet.Out{Name: "Loans", AsOf: time.Date(2025, 3, 14, 16, 0, 0, 0, time.UTC), Columns: []sheet.Column{
		{Heading: "Serial"}, {Heading: "Tag"}, {Heading: "Name"}, {Heading: "Phone"}, {Heading: "Street"}, {Heading: "Island"},
		{Heading: "Flow (L/min)", Kind: sheet.Number}, {Heading: "Gauge (psi)", Kind: sheet.Whole}, {Heading: "Out", Kind: sheet.Day},
		{Heading: "Read at", Kind: sheet.Time}, {Heading: "Cover", Kind: sheet.Duration}, {Heading: "Verdict"},
	}}
	day := time.Date(2024, 1, 1, 8, 0, 0, 0, time.UTC)
	for i := range manyRows {
		out.Rows = append(out.Rows, []any{
			fmt.Sprintf("CN%06d", i), fmt.Sprintf("T%05d", i), fmt.Sprintf("Person %d, Ines", i%5000), "555-0142",
			fmt.Sprintf("%d Harbour Road", i%300), "Great Quillet", float64(i%12) / 2, 2000 - i%1900, day.AddDate(0, 0, i%400),
			day.Add(time.Duration(i) * time.Minute), time.Duration(i%3000) * time.Minute, "holds",
		})
	}
	return out
}

func BenchmarkWriteWorkbook(b *testing.B) { benchmarkWrite(b, "loans.xlsx") }
func BenchmarkWriteCSV(b *testing.B)      { benchmarkWrite(b, "loans.csv") }

func benchmarkWrite(b *testing.B, name string) {
	out := manyLoans()
	path := filepath.Join(b.TempDir(), name)
	for b.Loop() {
		if err := sheet.Write(path, []sheet.Out{out}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkBareStreamWriter is the measure for BenchmarkWriteWorkbook: the
// library alone, without styles, filter, order of parts or a safe rename.
func BenchmarkBareStreamWriter(b *testing.B) {
	out := manyLoans()
	path := filepath.Join(b.TempDir(), "bare.xlsx")
	for b.Loop() {
		f := excelize.NewFile()
		w, err := f.NewStreamWriter("Sheet1")
		if err != nil {
			b.Fatal(err)
		}
		for i, row := range out.Rows {
			if err := w.SetRow(fmt.Sprintf("A%d", i+1), row); err != nil {
				b.Fatal(err)
			}
		}
		if err := w.Flush(); err != nil {
			b.Fatal(err)
		}
		if err := f.SaveAs(path); err != nil {
			b.Fatal(err)
		}
		f.Close()
	}
}

func BenchmarkReadWorkbook(b *testing.B) { benchmarkRead(b, "loans.xlsx") }
func BenchmarkReadCSV(b *testing.B)      { benchmarkRead(b, "loans.csv") }

func benchmarkRead(b *testing.B, name string) {
	path := filepath.Join(b.TempDir(), name)
	if err := sheet.Write(path, []sheet.Out{manyLoans()}); err != nil {
		b.Fatal(err)
	}
	info, err := os.Stat(path)
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(info.Size())
	var kept []sheet.Table
	var pause time.Duration
	for b.Loop() {
		last := time.Now()
		reader := sheet.Reader{Tell: func(float64) { pause, last = max(pause, time.Since(last)), time.Now() }}
		if kept, err = reader.File(context.Background(), path); err != nil {
			b.Fatal(err)
		}
		pause = max(pause, time.Since(last))
	}
	b.ReportMetric(float64(pause.Milliseconds()), "ms-longest-pause")
	var memory runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&memory)
	b.ReportMetric(float64(memory.HeapAlloc)/(1<<20), "MB-kept")
	runtime.KeepAlive(kept)
}
