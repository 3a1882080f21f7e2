package intake

import (
	"os"
	"path/filepath"
	"testing"

	"lungwort/delivery"
)

// FuzzMapTable: whatever a place file or a file of rides holds, it is read whole
// or refused; what is read lies on the earth and has its rows.
func FuzzMapTable(f *testing.F) {
	f.Add([]byte("Name,Latitude,Longitude,Town\nKelp Street,36.6,-40.3,Ness\n"))
	f.Add([]byte("From,To,Minutes,Km\nharbour,hospital,12 min,4.5\n"))
	f.Add([]byte("From,To,Minutes,Km\nharbour,hospital,-1,1e99\n"))
	f.Add([]byte("Name,Latitude,Longitude\n,NaN,Inf\n"))
	file := filepath.Join(f.TempDir(), "table.csv")
	f.Fuzz(func(t *testing.T, body []byte) {
		if err := os.WriteFile(file, body, 0o600); err != nil {
			t.Fatal(err)
		}
		act, err := ReadMapTable(t.Context(), file)
		if err != nil {
			return
		}
		switch act := act.(type) {
		case delivery.TakePlaces:
			for _, p := range act.Places {
				if p.Name == "" || !(p.Lat >= -90 && p.Lat <= 90 && p.Lon >= -180 && p.Lon <= 180) {
					t.Fatalf("%+v", p)
				}
			}
		case delivery.TakeRides:
			for _, r := range act.Rides {
				if r.Row < 2 || r.Minutes != r.Minutes || r.Km != r.Km {
					t.Fatalf("%+v", r)
				}
			}
		}
	})
}
