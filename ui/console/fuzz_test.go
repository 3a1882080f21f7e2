package console

import (
	"math"
	"os"
	"path/filepath"
	"reflect"
	"testing"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// FuzzFields: whatever stands behind a flag is read or refused by the type of its
// field. What names items and persons is looked up in a book and is not here.
func FuzzFields(f *testing.F) {
	for _, text := range []string{"500psi", "35bar,1/4", "16.5mL", "21C", "4", "2026-11-24T16:20:00-03:00", "90 min", "12", "NaN", "1e400", "no mains", "yes", "US-E", "a,b", "", "682L", "38kg"} {
		f.Add(text)
	}
	kinds := []any{
		gas.Pressure(0), []gas.Pressure{}, gas.Millilitres(0), gas.Litres(0), gas.Kilograms(0), gas.Celsius(0), gas.Flow(0), gas.SizeCode(""),
		time.Time{}, time.Duration(0), 0, 0.0, inventory.FactID(0), []string{}, asking(""), delivery.Mains(""), inventory.Place(""),
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, kind := range kinds {
			into := reflect.New(reflect.TypeOf(kind)).Elem()
			err := (filler{}).set(into, text)
			if n, is := into.Interface().(float64); is && err == nil && (math.IsNaN(n) || math.IsInf(n, 0)) {
				t.Errorf("%q is taken for the number %v", text, n)
			}
			if at, is := into.Interface().(time.Time); is && err == nil && at.Location() == time.Local {
				t.Errorf("%q has the zone of this machine", text)
			}
		}
	})
}

// FuzzReadAnswers: a file of answers is read or refused.
func FuzzReadAnswers(f *testing.F) {
	for _, text := range []string{`{"size:E": "US-E"}`, `{}`, `[]`, `null`, ``, `{"a": 1}`} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		file := filepath.Join(t.TempDir(), "answers.json")
		if err := os.WriteFile(file, data, 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err := readAnswers(file); err != nil && err.Error() == "" {
			t.Error("refused without a word")
		}
	})
}
