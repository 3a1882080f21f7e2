package settings

import (
	"testing"
	"time"

	"lungwort/delivery"
	"lungwort/ui/ask"
)

// FuzzValues: whatever is written into a setting is taken or refused; what is
// taken is written on the screen so that it is read back the same.
func FuzzValues(f *testing.F) {
	for _, text := range []string{"200 psi", "1 %", "40 km/h", "25 mph", "30 min", "08:00", "Europe/Lisbon", "2 cannula, 1 swivel", "0614141", "A4", "age1", "NaN", "1e309 km/h", "-3", "", "“"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, v := range values {
			p := delivery.NewProgramme()
			if v.set(&p, text) != nil {
				continue
			}
			shown, again := v.get(p), p
			if err := v.set(&again, shown); err != nil {
				t.Fatalf("%s: %q is shown as %q, which is refused: %v", v.key, text, shown, err)
			}
			if v.get(again) != shown {
				t.Fatalf("%s: %q is shown as %q, then as %q", v.key, text, shown, v.get(again))
			}
		}
	})
}

// FuzzRows: whatever is written into each field of each list, the row is taken or
// the field is named; nothing panics.
func FuzzRows(f *testing.F) {
	for _, text := range []string{"1 concentrator, 2 cylinder US-E", "2 cannula", "63.5 × 33.9", "36.5, -40.5", "08:00", "Mon Fri 06:30", "2026-03-06", "5 L/min", "1/8", "NaN", "", "-1", "12:00 for 30 min"} {
		f.Add(text, "QI")
	}
	f.Fuzz(func(t *testing.T, text, name string) {
		for _, g := range groups(time.Date(2030, 3, 5, 16, 0, 0, 0, time.UTC)) {
			for _, l := range g.lists {
				p := delivery.NewProgramme()
				answers := ask.Answers{}
				for _, field := range l.fields(p, l.size(p)) {
					answers = answers.With(ask.Answers{field.Key: text})
				}
				answers = answers.With(ask.Answers{"name": name})
				if wrong := l.put(&p, l.size(p), answers); len(wrong) == 0 {
					l.show(p, l.size(p)-1)
				}
			}
		}
	})
}
