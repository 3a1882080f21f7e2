package plant

import (
	"errors"
	"slices"
	"strconv"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/ui/ask"
)

// SignForm signs the exchange.
func (m *Model) SignForm() ask.Form {
	form := ask.Form{
		Title: "Exchange with " + m.Plant, Button: "Sign", Before: m.Slip.Says() + ".",
		Fields: []ask.Field{
			{Key: "driver", Label: "Signs for the plant", Hint: "who drives the truck"},
			{Key: "slip", Label: "Plant's slip", Hint: "its number, if it has one"},
			ask.When(m.work.Now()),
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r, act := ask.Read(a), m.Act()
			act.Driver, act.Slip, act.Accept = r.Need("driver", "write who signs for the plant"), a.Text("slip"), true
			hand := m.work.Hand(inventory.Scanned)
			hand.At = r.Past("when", m.work.Now())
			if len(r.Wrong()) > 0 {
				return r.Wrong()
			}
			m.work.Try("exchange", hand, act, func(out store.Outcome, err error) {
				closed(err)
				if err == nil {
					m.signed(out)
				}
			})
			return nil
		},
	}
	if len(m.Slip.Exceptions) > 0 {
		form.Button = "Sign with exception"
	}
	return form
}

// StrangerForm asks whose a cylinder is that the book does not know.
func (m *Model) StrangerForm() ask.Form {
	serial := m.Stranger
	return ask.Form{
		Title: serial + " is not in the book", Button: "Take it in",
		Before: "Rented: it is entered as its owner's and settles the count. Without an owner it waits in quarantine and replaces nothing.",
		Fields: []ask.Field{
			{Key: "owner", Label: "Owner", Hint: "as marked on it; empty: no mark"},
			{Key: "size", Label: "Size", Value: "US-E", Hint: "region and letter, as US-E"},
			{Key: "lot", Label: "Lot", Value: m.Lot, Hint: "on the drug label"},
			{Key: "gauge", Label: "Gauge", Kind: ask.Gauge, Hint: "if it was read"},
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			back := delivery.Received{Serial: serial, Owner: a.Text("owner"), Size: gas.SizeCode(a.Text("size")), Lot: a.Text("lot"), Gauge: r.Gauge("gauge")}
			if _, known := m.sizes.LookUp(back.Size); !known {
				r.Fail("size", errors.New("no size goes by that: write it as US-E"))
			}
			if len(r.Wrong()) > 0 {
				return r.Wrong()
			}
			m.in(Row{Key: serial, Label: serial, What: what(inventory.Spec{Size: back.Size, Owner: back.Owner}), Alarm: true, back: back})
			closed(nil)
			m.weigh()
			return nil
		},
	}
}

// ReadForm takes lot and gauge of one that comes in.
func (m *Model) ReadForm(key string) (ask.Form, bool) {
	i := slices.IndexFunc(m.In, func(r Row) bool { return r.Key == key })
	if i < 0 {
		return ask.Form{}, false
	}
	row := m.In[i]
	return ask.Form{
		Title: "Label and gauge of " + row.Label, Button: "Note it",
		Fields: []ask.Field{
			{Key: "lot", Label: "Lot", Value: row.back.Lot, Hint: "on the drug label"},
			{Key: "gauge", Label: "Gauge", Kind: ask.Gauge, Hint: "of the sample: read one in five at least"},
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			gauge := r.Gauge("gauge")
			if len(r.Wrong()) > 0 {
				return r.Wrong()
			}
			m.In[i].back.Lot, m.In[i].back.Gauge = a.Text("lot"), gauge
			m.In[i].Below = below(m.In[i].back)
			closed(nil)
			m.weigh()
			return nil
		},
	}, true
}

// CountForm takes what is on the slip and was not scanned.
func (m *Model) CountForm() ask.Form {
	return ask.Form{
		Title: "Counted, not scanned", Button: "Add", Before: "Rented cylinders are owed by count. Each must still be scanned before it is lent.",
		Fields: []ask.Field{
			{Key: "side", Label: "They", Kind: ask.Pick, Value: string(m.Side), Options: []ask.Option{{Value: string(Out), Label: "go out"}, {Value: string(In), Label: "come in"}}},
			{Key: "count", Label: "How many"},
			{Key: "size", Label: "Size", Value: "US-E", Hint: "region and letter, as US-E"},
			{Key: "owner", Label: "Owner", Hint: "whose they are"},
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			n, err := strconv.Atoi(a.Text("count"))
			if err != nil || n < 1 {
				r.Fail("count", errors.New("write a whole number"))
			}
			size := gas.SizeCode(a.Text("size"))
			if _, known := m.sizes.LookUp(size); !known {
				r.Fail("size", errors.New("no size goes by that: write it as US-E"))
			}
			more := inventory.Counted{Owner: r.Need("owner", "write whose they are: our own go by serial"), Size: size, Count: n}
			if len(r.Wrong()) > 0 {
				return r.Wrong()
			}
			if a.Is("side", string(Out)) {
				m.OutMore = append(m.OutMore, more)
			} else {
				m.InMore = append(m.InMore, more)
			}
			closed(nil)
			m.weigh()
			return nil
		},
	}
}
