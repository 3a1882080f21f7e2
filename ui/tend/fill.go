package tend

import (
	"errors"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/ask"
)

// Refill is the form for a new fill, of a cylinder by its gauge, of a liquid
// vessel by its weight.
func (t Tender) Refill() ask.Form {
	measured := ask.Field{Key: "gauge", Label: "Gauge", Kind: ask.Gauge}
	if size, known := t.Programme.SizeOf(t.Item.Spec); known {
		measured.Hint = "full is " + size.Service.String()
	}
	liquid := t.Item.Spec.Kind == inventory.Vessel
	if liquid {
		measured = ask.Field{Key: "weight", Label: "Weight", Hint: "after filling, in kg or lb"}
	}
	return ask.Form{
		Title: t.title("Fill of"), Button: "Record fill",
		Fields: []ask.Field{
			{Key: "lot", Label: "Lot", Hint: "on the drug label"},
			measured,
			{Key: "plant", Label: "Filled by"},
			t.depot(),
			ask.When(t.Work.Now()),
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			act := delivery.Refill{
				Item: t.Item.ID, Lot: r.Need("lot", "write the lot: a recall is found by it"),
				Plant: a.Text("plant"), Depot: r.Need("depot", "choose where it is"),
				Weight: r.Weight("weight"),
			}
			full := r.Gauge("gauge")
			switch {
			case full != nil:
				act.Full = *full
			case liquid && act.Weight == nil:
				r.Fail("weight", errors.New("weigh it after filling: no vessel is called full without it"))
			case !liquid:
				r.Fail("gauge", errors.New("read the gauge after filling: no cylinder is called full without it"))
			}
			return t.try(r, act, closed)
		},
	}
}
