package plant

import (
	"encoding/json"
	"fmt"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/labels/scene"
	"lungwort/ui/widgets"
)

// gathered is an exchange that is not signed.
type gathered struct {
	Plant   string              `json:"plant"`
	Depot   string              `json:"depot"`
	Lot     string              `json:"lot,omitempty"`
	Later   bool                `json:"later,omitempty"`
	Out     []Row               `json:"out,omitempty"`
	In      []Row               `json:"in,omitempty"`
	Came    []delivery.Received `json:"came,omitempty"` // beside In
	OutMore []inventory.Counted `json:"out_more,omitempty"`
	InMore  []inventory.Counted `json:"in_more,omitempty"`
}

// Gathered returns the exchange as it stands; empty: nothing was scanned or
// counted.
func (m *Model) Gathered() string {
	if len(m.Out)+len(m.In)+len(m.OutMore)+len(m.InMore) == 0 {
		return ""
	}
	g := gathered{Plant: m.Plant, Depot: m.Depot, Lot: m.Lot, Later: m.Later, Out: m.Out, In: m.In, Came: m.Act().In, OutMore: m.OutMore, InMore: m.InMore}
	text, _ := json.Marshal(g) // plain data
	return string(text)
}

// Regather goes on with an exchange where it was left.
func (m *Model) Regather(was string) {
	var g gathered
	if json.Unmarshal([]byte(was), &g) != nil || len(g.In) != len(g.Came) {
		return
	}
	for i := range g.In {
		g.In[i].back = g.Came[i]
	}
	m.Plant, m.Depot, m.Lot, m.Later, m.Out, m.In, m.OutMore, m.InMore = g.Plant, g.Depot, g.Lot, g.Later, g.Out, g.In, g.OutMore, g.InMore
	m.Sign = scene.Sign{Verdict: scene.Holds, Word: fmt.Sprintf("OUT %d, IN %d", len(m.Out), len(m.In)), Below: "scanned before; go on"}
	m.weigh()
}

// Gathered returns what was scanned and is not signed.
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
