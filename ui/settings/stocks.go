package settings

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"lungwort/delivery"
	"lungwort/delivery/paperwork"
	"lungwort/inventory/refusal"
	"lungwort/ui/ask"
)

// stocks are the label papers of the programme's own. Lengths are asked for in
// pairs, across and then down, as they stand on the box.
var stocks = rowsOf[delivery.LabelStock]{
	id: "stocks", what: "label stock",
	get: func(p delivery.Programme) []delivery.LabelStock { return p.Stocks },
	set: func(p *delivery.Programme, rows []delivery.LabelStock) { p.Stocks = rows },
	says: func(_ delivery.Programme, s delivery.LabelStock) (string, string) {
		if s.Page == delivery.PaperRoll {
			return s.Name, join("a roll of single labels", pair(s.Width, s.Height)+" mm")
		}
		return s.Name, join(s.Page, fmt.Sprintf("%d × %d labels", s.Columns, s.Rows), pair(s.Width, s.Height)+" mm",
			"margins "+pair(s.Left, s.Top), "gaps "+pair(s.Across, s.Down))
	},
	asks: func(_ delivery.Programme, s delivery.LabelStock) []ask.Field {
		count := ""
		if s.Rows > 0 {
			count = fmt.Sprintf("%d × %d", s.Columns, s.Rows)
		}
		return []ask.Field{
			{Key: "name", Label: "Name", Value: s.Name, Hint: "as on its box"},
			{Key: "page", Label: "On", Kind: ask.Pick, Value: s.Page, Options: []ask.Option{
				{Value: delivery.PaperA4, Label: "A4 sheets"}, {Value: delivery.PaperLetter, Label: "Letter sheets"}, {Value: delivery.PaperRoll, Label: "a roll"}}},
			{Key: "size", Label: "One label", Value: pairOr(s.Width, s.Height), Hint: "width × height, as 63.5 × 33.9 mm or 4 × 2 in"},
			{Key: "count", Label: "Labels", Value: count, Hint: "across × down, as 3 × 8; blank for a roll"},
			{Key: "margin", Label: "Margins", Value: pairOr(s.Left, s.Top), Hint: "from the sheet's left × top edge to the first label"},
			{Key: "gap", Label: "Gaps", Value: pairOr(s.Across, s.Down), Hint: "between neighbours, across × down; blank: none"},
		}
	},
	read:  func(r *ask.Reader, _ delivery.Programme, a ask.Answers) delivery.LabelStock { return readStock(r, a) },
	blank: func(p delivery.Programme) delivery.LabelStock { return delivery.LabelStock{Page: p.OfficePaper()} },
}

func readStock(r *ask.Reader, a ask.Answers) delivery.LabelStock {
	s := delivery.LabelStock{Name: r.Need("name", "write the name on its box"), Page: a.Text("page"), Rows: 1, Columns: 1}
	r.Need("page", "choose what the labels are on")
	r.Need("size", "measure one label")
	lengths(r, a, "size", &s.Width, &s.Height)
	if s.Page != delivery.PaperRoll {
		r.Need("count", "count the labels across and down one sheet")
		across, down, err := readPair(a.Text("count"), 1)
		r.Fail("count", err)
		s.Columns, s.Rows = int(across), int(down)
		if float64(s.Columns) != across || float64(s.Rows) != down {
			r.Fail("count", errors.New("labels are counted in whole numbers"))
		}
		lengths(r, a, "margin", &s.Left, &s.Top)
		lengths(r, a, "gap", &s.Across, &s.Down)
	}
	if len(r.Wrong()) == 0 {
		if err := paperwork.Stock(s).Check(); err != nil {
			r.Fail("size", errors.New(refusal.For(err)))
		}
	}
	return s
}

func lengths(r *ask.Reader, a ask.Answers, key string, across, down *float64) {
	text, scale := a.Text(key), 1.0
	if inches := strings.TrimSuffix(text, "in"); inches != text {
		text, scale = inches, 25.4
	}
	var err error
	*across, *down, err = readPair(strings.TrimSuffix(text, "mm"), scale)
	r.Fail(key, err)
}

// readPair reads "63.5 × 33.9"; blank is two zeros.
func readPair(text string, scale float64) (across, down float64, err error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return 0, 0, nil
	}
	plain := strings.NewReplacer("×", "x", "X", "x", "*", "x", ",", ".").Replace(text)
	left, right, ok := strings.Cut(plain, "x")
	across, err1 := strconv.ParseFloat(strings.TrimSpace(left), 64)
	down, err2 := strconv.ParseFloat(strings.TrimSpace(right), 64)
	if !ok || err1 != nil || err2 != nil || !(across >= 0 && down >= 0 && across < 1000 && down < 1000) {
		return 0, 0, fmt.Errorf("“%s” is no pair of numbers: write it as 63.5 × 33.9", text)
	}
	return across * scale, down * scale, nil
}

func pair(across, down float64) string { return decimals(across) + " × " + decimals(down) }

// pairOr writes a pair for its field; two zeros are blank.
func pairOr(across, down float64) string {
	if across == 0 && down == 0 {
		return ""
	}
	return pair(across, down)
}
