package recall

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

// SearchForm asks what a notice names.
func (m *Model) SearchForm() ask.Form {
	return ask.Form{
		Title: "What does the notice name?", Button: "Search everything ever owned",
		Fields: []ask.Field{
			{Key: "model", Label: "Model", Value: m.Search.Model, Hint: "as the notice writes it"},
			{Key: "from", Label: "Serials from", Value: m.Search.From},
			{Key: "to", Label: "to", Value: m.Search.To},
			{Key: "list", Label: "or a list", Kind: ask.Notes, Value: strings.Join(m.Search.Serials, "\n"), Hint: "paste it: blanks, commas or lines between"},
			{Key: "lot", Label: "Lot of a fill or supply", Value: m.Search.Lot},
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			n := delivery.RecallNotice{
				Model: a.Text("model"), From: a.Text("from"), To: a.Text("to"), Lot: a.Text("lot"),
				Serials: strings.FieldsFunc(a.Text("list"), func(r rune) bool { return r == ',' || r == ';' || r == '\n' || r == '\t' }),
			}
			for i := range n.Serials {
				n.Serials[i] = strings.TrimSpace(n.Serials[i])
			}
			if n.Empty() {
				return ask.Wrong{"model": errors.New("write at least one of these")}
			}
			closed(nil)
			m.Find(n)
			return nil
		},
	}
}

// swapWithin is by when the swaps are due unless the notice says otherwise.
// Common practice, no source.
const swapWithin = 24 * time.Hour

// MarkForm marks what the search found; of what it can't tell, the one row in
// hand whose plate was read.
func (m *Model) MarkForm(picked inventory.ItemID) (ask.Form, bool) {
	ids := m.named(picked)
	if len(ids) == 0 {
		return ask.Form{}, false
	}
	return ask.Form{
		Title: fmt.Sprintf("Mark %d named by the notice", len(ids)), Button: "Mark and plan the swaps", Danger: true,
		Before: strings.TrimSpace("They can't be lent from now on. For each in a home a swap is opened, and the runs plan it by its due time. " + m.onlyHere()),
		Fields: []ask.Field{
			{Key: "notice", Label: "Notice", Hint: "its number"},
			{Key: "due", Label: "Out of homes by", Kind: ask.Moment, Value: m.work.Now().Add(swapWithin).Format(time.RFC3339)},
		},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			act := delivery.Recall{Notice: r.Need("notice", "write its number: the file goes by it"), Items: ids, Due: r.Time("due", m.work.Now().Location())}
			return m.try(r, act, closed, func() { m.OpenFile(act.Notice) })
		},
	}, true
}

// LetterForm records that who has the item was told.
func (m *Model) LetterForm(id inventory.ItemID) ask.Form {
	return ask.Form{
		Title: "Told of the recall", Button: "Put in the file",
		Fields: []ask.Field{{Key: "how", Label: "How", Kind: ask.Pick, Value: "letter", Options: []ask.Option{{Value: "letter", Label: "letter"}, {Value: "phone", Label: "phone"}, {Value: "in person", Label: "in person"}}}},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			return m.try(ask.Read(a), delivery.RecallLetter{Item: id, How: a.Text("how")}, closed, m.Load)
		},
	}
}

// ReplyForm records the reply.
func (m *Model) ReplyForm(id inventory.ItemID) ask.Form {
	return ask.Form{
		Title: "Reply to the recall", Button: "Put in the file",
		Fields: []ask.Field{{Key: "says", Label: "It is", Kind: ask.Pick, Options: []ask.Option{
			{Value: "use", Label: "there, in use"}, {Value: "rests", Label: "there, not used"}, {Value: "gone", Label: "not there"},
		}}},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			r := ask.Read(a)
			says := r.Need("says", "say what they replied")
			return m.try(r, delivery.RecallReply{Item: id, Gone: says == "gone", Rests: says == "rests"}, closed, m.Load)
		},
	}
}

func (m *Model) try(r *ask.Reader, act delivery.Act, closed func(error), after func()) ask.Wrong {
	if len(r.Wrong()) > 0 {
		return r.Wrong()
	}
	m.work.Try("recall act", m.work.Hand(inventory.Keyed), act, func(out store.Outcome, err error) {
		closed(err)
		if err == nil {
			m.work.OfferUndo(out, m.Load)
			after()
		}
	})
	return nil
}
