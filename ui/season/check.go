package season

import (
	"fmt"

	items "lungwort/inventory/store"
)

// differing names every item that the book has elsewhere than it really is.
func (o *office) differing() ([]string, error) {
	found, _, err := o.desk.Items(o.ctx, items.Filter{})
	if err != nil {
		return nil, err
	}
	var wrong []string
	for _, i := range found {
		thing := o.items[i.ID]
		switch {
		case thing == nil:
			wrong = append(wrong, fmt.Sprintf("%s is in the book and was never there", i.Label()))
		case thing.Place != i.Place:
			wrong = append(wrong, fmt.Sprintf("%s is at %s, the book has it at %s", i.Label(), thing.Place, i.Place))
		}
	}
	if len(found) < len(o.items) {
		wrong = append(wrong, fmt.Sprintf("%d items are not in the book", len(o.items)-len(found)))
	}
	return wrong, nil
}
