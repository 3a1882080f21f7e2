package supplies

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/ui/ask"
)

// stores are the places where supplies are kept.
func (m *Model) stores() []ask.Option {
	var list []ask.Option
	for _, s := range m.programme.Depots {
		list = append(list, ask.Option{Value: string(inventory.At(inventory.AtDepot, s.Name)), Label: "depot " + s.Name})
	}
	for _, s := range m.programme.Wards {
		list = append(list, ask.Option{Value: string(inventory.At(inventory.AtWard, s.Name)), Label: "ward " + s.Name})
	}
	return list
}

// store is the field for one of them.
func (m *Model) store(key, label string, at inventory.Place) ask.Field {
	all := m.stores()
	if at == "" && len(all) > 0 {
		at = inventory.Place(all[0].Value)
	}
	return ask.Field{Key: key, Label: label, Kind: ask.Pick, Options: all, Value: string(at)}
}

// ReceiveForm takes a lot in.
func (m *Model) ReceiveForm(in inventory.SupplyStock) ask.Form {
	return ask.Form{
		Title: "Supplies come in", Button: "Take in",
		Fields: []ask.Field{
			{Key: "supply", Label: "What", Value: in.Supply, Hint: "cannula, extension tubing, swivel connector"},
			{Key: "count", Label: "How many", Kind: ask.Number},
			{Key: "lot", Label: "Lot", Hint: "on the bag; none where there is none"},
			{Key: "expires", Label: "Expires", Hint: "as 2031-01-31; empty: it does not"},
			m.store("to", "At", in.At),
			{Key: "from", Label: "Supplied by"},
			ask.When(m.work.Now()),
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			if _, err := time.Parse(time.DateOnly, a.Text("expires")); a.Text("expires") != "" && err != nil {
				r.Fail("expires", errors.New("write the day as 2031-01-31"))
			}
			return m.try(r, delivery.ReceiveSupply{
				Supply: r.Need("supply", "write what it is"), Count: number(r), Lot: r.Need("lot", "write the lot: a recall is found by it"),
				To: inventory.Place(r.Need("to", "choose where it is")), From: a.Text("from"), Expires: a.Text("expires"),
			}, closed)
		},
	}
}

// CountForm counts one supply at one place.
func (m *Model) CountForm(in inventory.SupplyStock) ask.Form {
	return ask.Form{
		Title: "Count " + in.Supply, Button: "Counted", Before: "Count what lies there, lot by lot. What is not written is not there.",
		Fields: []ask.Field{
			{Key: "supply", Label: "What", Value: in.Supply},
			m.store("at", "At", in.At),
			{Key: "lots", Label: "There lie", Hint: "as 18 lot C77, 20 lot D01; none for nothing"},
			ask.When(m.work.Now()),
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			return m.try(r, delivery.CountSupply{
				Supply: r.Need("supply", "write what was counted"), At: inventory.Place(r.Need("at", "choose where")), Lots: r.Need("lots", "write what lies there, or none"),
			}, closed)
		},
	}
}

// MoveForm takes supplies elsewhere, or throws them away.
func (m *Model) MoveForm(in inventory.SupplyStock) ask.Form {
	to := m.store("to", "To", "")
	to.Options = append(to.Options, ask.Option{Value: string(inventory.AtRetired), Label: "thrown away"})
	to.Value = ""
	return ask.Form{
		Title: strings.TrimSpace(fmt.Sprintf("Move %s %s", in.Supply, in.Lot)), Button: "Move",
		Fields: []ask.Field{
			{Key: "count", Label: "How many", Kind: ask.Number, Hint: fmt.Sprintf("%d are there", in.Count)},
			to,
			{Key: "why", Label: "Why", Hint: "where they are thrown away"},
			ask.When(m.work.Now()),
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			act := delivery.MoveSupply{
				Supply: in.Supply, Lot: in.Lot, Count: number(r), From: in.At,
				To: inventory.Place(r.Need("to", "choose where they go")), Why: a.Text("why"),
			}
			if act.To.Kind() == inventory.AtRetired && act.Why == "" {
				r.Fail("why", errors.New("write why they are thrown away"))
			}
			return m.try(r, act, closed)
		},
	}
}

// RecallForm marks a lot: it is given to nobody any more.
func (m *Model) RecallForm(in inventory.SupplyStock) ask.Form {
	return ask.Form{
		Title: "Recall a lot of " + in.Supply, Button: "Mark the lot", Danger: true,
		Before: "It is given to nobody any more. Who was given it is found on the Recall screen, by its lot.",
		Fields: []ask.Field{
			{Key: "lot", Label: "Lot", Value: in.Lot},
			{Key: "notice", Label: "Notice", Hint: "its number or name"},
			ask.When(m.work.Now()),
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			return m.try(r, delivery.RecallSupply{
				Supply: in.Supply, Lot: r.Need("lot", "write the lot on the notice"), Notice: r.Need("notice", "write the number of the notice"),
			}, closed)
		},
	}
}

func number(r *ask.Reader) int {
	r.Need("count", "write how many")
	n := r.Number("count", "", 1, 1e6)
	if n == nil {
		return 0
	}
	return int(*n)
}

// try does an act at the time the form says.
func (m *Model) try(r *ask.Reader, act delivery.Act, closed func(error)) ask.Wrong {
	hand := m.work.Hand(inventory.Keyed)
	hand.At = r.Past("when", m.work.Now())
	if len(r.Wrong()) > 0 {
		return r.Wrong()
	}
	m.work.Try("supply", hand, act, func(out store.Outcome, err error) {
		closed(err)
		if err == nil {
			m.work.OfferUndo(out, m.Load)
			m.Load()
		}
	})
	return nil
}
