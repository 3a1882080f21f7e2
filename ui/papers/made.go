package papers

import (
	"os"
	"path/filepath"
	"strings"
	"time"

	"lungwort/delivery"
)

// stampLayout ends the names of the files: when the facts were as shown. The
// names say nothing of anybody.
const stampLayout = "2006-01-02-1504"

// made finds out from the names of the files when each kind was last made.
func made(dir string, zone *time.Location) map[string]time.Time {
	last := make(map[string]time.Time)
	files, err := os.ReadDir(dir)
	if err != nil {
		return last // no folder yet: nothing was made
	}
	for _, file := range files {
		name, at, ok := stamped(file.Name(), zone)
		for _, id := range ids() {
			if ok && strings.HasPrefix(name, id+"-") && at.After(last[id]) {
				last[id] = at
			}
		}
	}
	return last
}

// stamped parts a file's name into what it is and when its facts were so.
func stamped(file string, zone *time.Location) (name string, at time.Time, ok bool) {
	stem := strings.TrimSuffix(file, filepath.Ext(file))
	cut := len(stem) - len(stampLayout)
	if cut <= 0 {
		return "", time.Time{}, false
	}
	at, err := time.ParseInLocation(stampLayout, stem[cut:], zone)
	return stem[:cut], at, err == nil
}

func ids() []string {
	list := []string{Copy}
	for _, k := range kinds {
		list = append(list, k.id)
	}
	return list
}

// last says when a paper was made: "today 14:02", "Mon 4 Mar 18:30".
func last(at, now time.Time) string {
	if at.IsZero() {
		return "not made here yet"
	}
	if at.YearDay() == now.YearDay() && at.Year() == now.Year() {
		return "today " + at.Format("15:04")
	}
	return delivery.Clock(at, now)
}
