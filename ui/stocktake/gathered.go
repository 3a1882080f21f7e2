package stocktake

import (
	"encoding/json"
	"fmt"

	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/widgets"
)

// gathered is a count that is not finished.
type gathered struct {
	Place inventory.Place `json:"place"`
	Zone  inventory.Zone  `json:"zone,omitempty"`
	Rows  []Row           `json:"rows"`
}

// Gathered returns the count as it stands; empty: nothing was scanned.
func (m *Model) Gathered() string {
	if len(m.Rows) == 0 {
		return ""
	}
	text, _ := json.Marshal(gathered{m.Place, m.Zone, m.Rows}) // plain data
	return string(text)
}

// Regather goes on with a count where it was left.
func (m *Model) Regather(was string) {
	var g gathered
	if json.Unmarshal([]byte(was), &g) != nil {
		return
	}
	m.Place, m.Zone, m.Rows, m.Shown, m.Differences = g.Place, g.Zone, g.Rows, "", nil
	m.Sign = scene.Sign{Verdict: scene.Holds, Word: fmt.Sprint(len(m.Rows)), Below: "scanned before; go on"}
	m.Changed()
}

// Gathered returns what was scanned and is not finished.
func (v *View) Gathered() string { return v.model.Gathered() }

// Regather puts it back.
func (v *View) Regather(was string) { v.model.Regather(was) }

// keep keeps what was scanned, once it is otherwise.
func (v *View) keep() {
	if now := v.model.Gathered(); now != v.kept {
		v.kept = now
		widgets.Typed()
	}
}
