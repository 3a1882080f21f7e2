//go:build realwindow

package realwindow

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// record is the hospital record number of the person who waits to be
// discharged in the demo.
const record = "0057016"

// TestTheDayInTheWindow discharges, plans, closes a stop, stops the oxygen and
// takes a thing back, by keys and scans alone, and looks into the book after
// each.
func TestTheDayInTheWindow(t *testing.T) {
	s := start(t)
	s.keep("1-needs.png")

	s.discharge()
	s.keep("2-discharge.png")
	s.until("the person is on the watch list", func() bool { return s.watched() != nil })
	require.Equal(t, 2.0, s.watched().Flow)
	require.NotNil(t, s.watched().DryLow, "on the bridge the gas has an end")

	s.key("ctrl+5")
	s.settle()
	s.key("ctrl+Return") // plan
	s.settle()
	s.key("ctrl+Return") // accept
	s.until("runs are planned", func() bool { return len(s.rows("runs", "Person", "Finlo, Odd")) == 1 })
	s.settle()
	s.keep("3-runs.png")
	s.typed("odd f")
	s.key("Return")
	s.settle()
	machine := s.rows("items", "State", "reserved", "Person", "Finlo, Odd")
	require.Len(t, machine, 1, "the concentrator is set aside")
	s.scan(machine[0]["Serial"])
	s.settle()
	s.typed("13690")
	s.key("ctrl+Return") // the keyboard goes to what is missing: does it run?
	s.settle()
	s.key("Right", "ctrl+Return")
	s.until("the concentrator runs", func() bool { w := s.watched(); return w != nil && w.DryLow == nil })
	s.keep("4-closed.png")

	s.key("ctrl+f")
	s.typed(record)
	s.key("Return")
	s.settle()
	s.keep("5-person.png")
	s.key("0")
	s.settle()
	s.typed("ward 6B")
	s.key("Tab")
	s.typed("recovered")
	s.key("ctrl+Return")
	s.until("the person is off the watch list", func() bool { return s.watched() == nil })

	s.key("ctrl+6")
	s.settle()
	s.scan(machine[0]["Serial"])
	s.settle()
	s.keep("6-return.png")
	s.typed("13700")
	s.key("Return") // the keyboard goes to what is missing: at which depot?
	s.settle()
	s.key("h", "Return")
	s.until("the machine is in the dirty bay", func() bool {
		return len(s.rows("items", "Serial", machine[0]["Serial"], "State", "dirty", "Hours", "13700")) == 1
	})
	require.Contains(t, s.command("audit", "--book", s.book), " 0 mismatches")
	s.tellsNobody()
}

// discharge fills in the form of the person who waits, up to the gauges of the
// two cylinders given.
func (s *screen) discharge() {
	s.key("ctrl+2")
	s.settle()
	s.typed("finlo")
	s.key("Return")
	s.settle()
	s.key("ctrl+Return") // the keyboard goes to what is missing: three consents
	for range 3 {
		s.settle()
		s.key("Right", "ctrl+Return")
	}
	s.settle()
	s.typed("6B")
	s.key("ctrl+Return")
	for _, gauge := range []string{"1950", "1900"} {
		s.settle()
		s.typed(gauge)
		s.key("ctrl+Return")
	}
}

// line is what the test reads of a line of the watch list.
type line struct {
	ID     string   `json:"id"`
	Person string   `json:"person"`
	Flow   float64  `json:"flow_lpm"`
	DryLow *string  `json:"dry_low"`
	Assume []string `json:"assumptions"`
}

// watched returns the person's line of the watch list; nil when there is
// none.
func (s *screen) watched() *line {
	var lines []line
	require.NoError(s.t, json.Unmarshal([]byte(s.command("watch", "--book", s.book, "--json")), &lines))
	for _, l := range lines {
		if l.Person == "Finlo, Odd" {
			return &l
		}
	}
	return nil
}

// rows returns the rows of an export whose columns hold the given values.
func (s *screen) rows(what string, where ...string) []map[string]string {
	out := filepath.Join(s.t.TempDir(), what+".csv")
	s.command("export", "--book", s.book, "--what", what, "--out", out)
	text, err := os.ReadFile(out)
	require.NoError(s.t, err)
	read := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(text, []byte("\ufeff"))))
	read.FieldsPerRecord = -1
	all, err := read.ReadAll()
	require.NoError(s.t, err)
	var head []string
	var found []map[string]string
	for _, fields := range all {
		if head == nil {
			if len(fields) > 2 { // title and date stand above the headings
				head = fields
			}
			continue
		}
		row := make(map[string]string, len(head))
		for i, name := range head[:min(len(head), len(fields))] {
			row[name] = strings.TrimPrefix(fields[i], "'")
		}
		holds := true
		for i := 0; i < len(where); i += 2 {
			holds = holds && row[where[i]] == where[i+1]
		}
		if holds {
			found = append(found, row)
		}
	}
	return found
}
