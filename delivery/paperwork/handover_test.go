package paperwork_test

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/delivery/paperwork"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/labels/paper"
	"lungwort/labels/tongue"
)

// TestHandOver: the receipt says who, where, what was lent with its gauge, the
// flow set, what comes next and by when it must.
func TestHandOver(t *testing.T) {
	now := time.Date(2030, 3, 5, 16, 20, 0, 0, time.FixedZone("", -3*3600))
	p := delivery.NewProgramme()
	p.Phone = "555-0110"
	p.Clinician = []delivery.Contact{{Name: "Clinician on call", Phone: "555-0112"}}
	page := store.PersonPage{
		Person:  delivery.Person{ID: "p00013", Family: "Lund", Given: "Nia", Born: "1951-04-12", Record: "Q-M417"},
		Address: delivery.Address{Street: "Shore Road 8", Town: "Quillet Town"},
		Care: delivery.Care{
			Order:     &delivery.Ordered{Rest: 2, Exertion: 3, Hours: 24},
			Discharge: &delivery.Discharged{Ward: "6B", Opened: now, Supplies: []inventory.Handful{{Supply: "cannula", Count: 2}}},
			Tasks: []delivery.OpenTask{{Tasked: delivery.Tasked{
				Task: delivery.Deliver, Until: now.Add(55 * time.Minute), Bring: []delivery.Wanted{{Kind: inventory.Concentrator, Rated: 5, Count: 1}},
			}}},
		},
		Kit: []inventory.Item{{
			Tag: 14, Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E", Serial: "E-20114"},
			Gauge: &inventory.Seen[gas.Pressure]{Value: gas.PSI(1950), At: now},
		}},
	}
	watch := delivery.Watch{Forecast: depletion.Forecast{ActBy: now.Add(165 * time.Minute)}}
	receipt := paperwork.Desk{Programme: p, Now: now, Format: paper.Letter}.HandOver(page, watch, paperwork.Asked{By: "desk"})

	assert.Equal(t, "Lund, Nia", receipt.Name)
	assert.Equal(t, "ward 6B", receipt.Place)
	assert.Equal(t, "2 L/min", receipt.FlowSet)
	assert.Equal(t, "concentrator to 5 L/min by Tue 5 Mar 17:15", receipt.Next)
	assert.Equal(t, now.Add(165*time.Minute), receipt.NextBy)
	require.Len(t, receipt.Kit, 2)
	assert.Equal(t, "1,950 psi", receipt.Kit[0].Gauge)
	assert.Equal(t, 2, receipt.Kit[1].Quantity)
	require.Len(t, receipt.Numbers, 2)
	assert.Equal(t, "555-0110", receipt.Numbers[0].Number)

	page.Care.Order = &delivery.Ordered{Setting: "2", Hours: 24}
	page.Care.Tasks = nil
	pulse := paperwork.Desk{Programme: p, Now: now, Format: paper.Letter}.HandOver(page, watch, paperwork.Asked{By: "desk"})
	assert.Empty(t, pulse.FlowSet, "a pulse setting is no flow")
	assert.Empty(t, pulse.Next)

	page.Care.Order = &delivery.Ordered{Rest: 2, Exertion: 3, Hours: 16}
	page.Care.Tasks = []delivery.OpenTask{{Tasked: delivery.Tasked{
		Task: delivery.Deliver, Until: now.Add(55 * time.Minute), Bring: []delivery.Wanted{{Kind: inventory.Concentrator, Rated: 5, Count: 1}},
	}}}
	spanish := paperwork.Desk{Programme: p, Now: now, Format: paper.Letter}.HandOver(page, watch, paperwork.Asked{By: "desk", Tongue: tongue.Spanish()})
	assert.Equal(t, []string{"fecha de nacimiento 12 abr 1951", "expediente n.º Q-M417"}, spanish.Identifiers)
	assert.Equal(t, "planta 6B", spanish.Place)
	assert.Equal(t, "En reposo: 2 litros por minuto. Al moverse: 3 litros por minuto. 16 horas al día", spanish.Order)
	assert.Equal(t, "máquina de oxígeno 5 L/min, antes del mar 5 mar 17:15", spanish.Next)

	file := filepath.Join(t.TempDir(), "receipt.pdf")
	require.NoError(t, paperwork.Save(file, receipt))
	info, err := os.Stat(file)
	require.NoError(t, err)
	assert.Positive(t, info.Size())
	if keep := os.Getenv("LUNGWORT_GALLERY"); keep != "" {
		require.NoError(t, paperwork.Save(filepath.Join(keep, "hand-over.pdf"), receipt))
	}
}
