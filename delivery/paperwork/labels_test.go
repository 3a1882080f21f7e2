package paperwork_test

import (
	"io"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"lungwort/delivery"
	"lungwort/delivery/paperwork"
	"lungwort/inventory"
	"lungwort/labels/paper"
	"lungwort/labels/tag"
)

// The longest codes fit the smallest label of the coarsest printer.
func TestEveryFormOfACodeFitsEveryStock(t *testing.T) {
	p := delivery.NewProgramme()
	p.Phone = "555-0110"
	now := time.Date(2030, time.March, 5, 16, 20, 0, 0, time.UTC)
	items := []inventory.Item{
		{Tag: 41_729, Spec: inventory.Spec{Kind: inventory.Cylinder, Size: "US-E", Requal: "2031-05"}},
		{Tag: 12, Spec: inventory.Spec{Kind: inventory.Concentrator, Rated: 10}},
	}
	for _, company := range []string{"", "9521234", "952123456789"} {
		for _, form := range []string{tag.AsElements, tag.AsLink} {
			p.Company, p.Carries = company, form
			for _, stock := range paper.Stocks {
				for _, dpi := range []paper.DPI{paper.DPI203, paper.DPI300} {
					_, err := paperwork.NewDesk(p, now).Labels(items, stock, dpi, 1).Print(io.Discard)
					assert.NoError(t, err, "%s %s on %s at %d dpi", company, form, stock.Name, dpi)
				}
			}
		}
	}
}
