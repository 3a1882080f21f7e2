package widgets

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// Quantity is an input for a number with its unit. Without a unit behind the
// number the first of its units is meant, and stands beside the input.
type Quantity struct {
	Text

	units []string
	unit  *widget.Label
}

var _ Input = (*Quantity)(nil)

// NewQuantity returns an empty input for an amount in any of units.
func NewQuantity(units ...string) *Quantity {
	q := &Quantity{units: units, unit: widget.NewLabel("")}
	q.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	q.ActionItem = q.unit
	q.unit.Importance = widget.LowImportance
	q.OnChanged = func(string) { q.showUnit() }
	q.ExtendBaseWidget(q)
	q.showUnit()
	return q
}

// Amount is the number written and its unit, or an error that says what to
// write.
func (q *Quantity) Amount() (float64, string, error) { return ParseQuantity(q.Text.Text, q.units...) }

func (q *Quantity) showUnit() {
	_, unit, err := q.Amount()
	if err != nil && len(q.units) > 0 {
		unit = q.units[0]
	}
	if strings.HasSuffix(strings.ToLower(q.Text.Text), strings.ToLower(unit)) && unit != "" {
		unit = ""
	}
	q.unit.SetText(unit)
}

var (
	quantityParts = regexp.MustCompile(`^([0-9][0-9.,]*)\s*(\S.*)?$`)
	plainNumber   = regexp.MustCompile(`^\d+(\.\d+)?$`)
	grouped       = regexp.MustCompile(`^\d{1,3}(,\d{3})+(\.\d+)?$`)
)

// ParseQuantity reads an amount such as "500 psi", "1,400psi" or "2.5". A
// comma groups thousands and nothing else.
func ParseQuantity(text string, units ...string) (float64, string, error) {
	text = strings.TrimSpace(text)
	example := "2.5"
	if len(units) > 0 {
		example += " " + units[0]
	}
	parts := quantityParts.FindStringSubmatch(text)
	switch {
	case text == "":
		return 0, "", fmt.Errorf("the amount is missing: write it as %s", example)
	case parts == nil:
		return 0, "", fmt.Errorf("“%s” is not an amount: write it as %s", text, example)
	}
	number := parts[1]
	if grouped.MatchString(number) {
		number = strings.ReplaceAll(number, ",", "")
	}
	if !plainNumber.MatchString(number) {
		return 0, "", fmt.Errorf("“%s” can be read in two ways: write 1400 or 1.4", parts[1])
	}
	amount, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return 0, "", fmt.Errorf("“%s” is too large", parts[1])
	}
	unit, ok := unitOf(parts[2], units)
	if !ok {
		return 0, "", fmt.Errorf("“%s” is not a unit here: use %s", parts[2], strings.Join(units, " or "))
	}
	return amount, unit, nil
}

// unitOf is the unit that is meant by what stands behind the number.
func unitOf(written string, units []string) (string, bool) {
	if written == "" {
		if len(units) == 0 {
			return "", true
		}
		return units[0], true
	}
	for _, unit := range units {
		if strings.EqualFold(strings.ReplaceAll(written, " ", ""), strings.ReplaceAll(unit, " ", "")) {
			return unit, true
		}
	}
	return "", false
}
