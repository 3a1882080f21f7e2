package person

import (
	"errors"
	"strconv"
	"strings"

	"lungwort/delivery"
	"lungwort/ui/ask"
)

// BillForm answers "my bill has doubled": what the machine took, as a range, and
// what that costs at the price on their bill. Nothing is written.
func (m *Model) BillForm() ask.Form {
	now := m.work.Now()
	at := func(price float64) delivery.Answer { return m.watch.Electricity(m.all, price, now) }
	a := at(0)
	tariff := ""
	if m.all.Tariff > 0 {
		tariff = strconv.FormatFloat(m.all.Tariff, 'f', -1, 64)
	}
	before := append([]string{a.Title + "."}, a.Facts...)
	before = append(before, a.Do...)
	return ask.Form{
		Title: "Electricity of " + m.page.Person.Short(), Button: "Done",
		Before: strings.Join(append(before, a.Assumed...), "\n"),
		Fields: []ask.Field{{Key: "price", Label: "A kWh costs", Kind: ask.Number, Value: tariff, Hint: "as their bill says"}},
		Live: func(answers ask.Answers) (string, bool) {
			price := ask.Read(answers).Number("price", "", 0, 1000)
			if price == nil || *price == 0 {
				return "", false
			}
			for _, fact := range at(*price).Facts {
				if strings.HasPrefix(fact, "at ") {
					return fact, false
				}
			}
			return "", false
		},
		Submit: func(answers ask.Answers, closed func(error)) ask.Wrong {
			if answers.Text("price") == "" {
				return ask.Wrong{"price": errors.New("ask what a kWh costs; Esc closes without it")}
			}
			closed(nil)
			return nil
		},
	}
}
