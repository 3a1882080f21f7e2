package tend

import (
	"fmt"
	"strings"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/ask"
)

// Move is the form that puts the item at another place of ours.
func (t Tender) Move() ask.Form {
	form := ask.Form{
		Title: t.title("Move"), Button: "Move",
		Fields: []ask.Field{
			{Key: "kind", Label: "To a", Kind: ask.Pick, Options: []ask.Option{
				{Value: string(inventory.AtDepot), Label: "depot"}, {Value: string(inventory.AtWard), Label: "ward"},
				{Value: string(inventory.AtVehicle), Label: "van"}, {Value: string(inventory.AtPlant), Label: "plant"},
				{Value: string(inventory.AtWorkshop), Label: "workshop"}, {Value: string(inventory.AtRetired), Label: "retire"},
			}},
			{Key: "name", Label: "Which", Hint: t.places()},
			ask.When(t.Work.Now()),
		},
		Submit: t.moveSubmit,
	}
	if t.Item.Lent() {
		form.Before = "It is on loan: collect or return it first. It can only be retired from here."
	}
	return form
}

func (t Tender) moveSubmit(a ask.Answers, closed func(error)) ask.Wrong {
	r := ask.Read(a)
	kind := inventory.PlaceKind(r.Need("kind", "choose what sort of place"))
	to, err := t.place(kind, a.Text("name"))
	r.Fail("name", err)
	return t.try(r, delivery.Move{Item: t.Item.ID, To: to}, closed)
}

// names returns the programme's places of a kind.
func (t Tender) names(kind inventory.PlaceKind) []string {
	var names []string
	sites := map[inventory.PlaceKind][]delivery.Site{
		inventory.AtDepot: t.Programme.Depots, inventory.AtWard: t.Programme.Wards, inventory.AtPlant: t.Programme.Plants,
	}
	for _, s := range sites[kind] {
		names = append(names, s.Name)
	}
	if kind == inventory.AtVehicle {
		for _, v := range t.Programme.Vehicles {
			names = append(names, v.Name)
		}
	}
	return names
}

// places lists every place with a name.
func (t Tender) places() string {
	var all []string
	for _, kind := range []inventory.PlaceKind{inventory.AtDepot, inventory.AtWard, inventory.AtVehicle, inventory.AtPlant} {
		all = append(all, t.names(kind)...)
	}
	return strings.Join(all, ", ")
}

// place returns the place of a kind whose name begins with what was written.
// A kind with one place needs no name, one without names takes none.
func (t Tender) place(kind inventory.PlaceKind, written string) (inventory.Place, error) {
	switch kind {
	case "", inventory.AtWorkshop, inventory.AtRetired:
		return inventory.At(kind, ""), nil
	}
	names := t.names(kind)
	var fit []string
	for _, n := range names {
		if strings.EqualFold(n, written) {
			return inventory.At(kind, n), nil
		}
		if strings.HasPrefix(strings.ToLower(n), strings.ToLower(written)) {
			fit = append(fit, n)
		}
	}
	switch {
	case len(fit) == 1:
		return inventory.At(kind, fit[0]), nil
	case len(names) == 0:
		return "", fmt.Errorf("the settings name no %s", kind)
	case len(fit) > 1:
		return "", fmt.Errorf("which one: %s?", strings.Join(fit, ", "))
	}
	return "", fmt.Errorf("no %s goes by that name: %s", kind, strings.Join(names, ", "))
}
