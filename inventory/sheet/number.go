package sheet

import (
	"math"
	"regexp"
	"strconv"
	"strings"
)

// oneNumber finds the numbers in a text: thousands parted by spaces or
// apostrophes, by commas with a decimal point, by points with a decimal
// comma; or plain digits with a point or a comma.
var oneNumber = regexp.MustCompile(`[+-]?(?:` +
	`\d{1,3}(?:[ ']\d{3})+(?:[.,]\d+)?\b|` +
	`\d{1,3}(?:,\d{3})+(?:\.\d+)?\b|` +
	`\d{1,3}(?:\.\d{3})+,\d+\b|\d{1,3}(?:\.\d{3}){2,}\b|` +
	`\d+(?:[.,]\d+)?|[.,]\d+)`)

var (
	eitherComma = regexp.MustCompile(`^[+-]?[1-9]\d{0,2},\d{3}$`)
	shortened   = regexp.MustCompile(`(?i)\d[ .,]*e[+-]?\d`)
)

// ParseNumber reads a cell that holds one number, and returns the words that
// stand around it, as a unit does. A blank cell gives found false: unknown.
// A cell with no number, with several, or with one that can be read in two
// ways gives a *Doubt.
func ParseNumber(c Cell) (value float64, words string, found bool, err error) {
	if c.Blank() {
		return 0, "", false, nil
	}
	text := c.Text
	if stored := strings.TrimSpace(c.Raw); plainDecimal(stored) {
		text = stored // a number cell: what it shows may be rounded or grouped
	}
	if percent := strings.HasSuffix(c.Text, "%") && text != c.Text; percent {
		return percentOf(text)
	}
	if shortened.MatchString(text) {
		return 0, "", false, &Doubt{Text: c.Text, Asks: "The spreadsheet shortened this number. What is it in full?"}
	}
	spans := oneNumber.FindAllStringIndex(text, -1)
	switch {
	case len(spans) == 0:
		return 0, "", false, &Doubt{Text: c.Text, Asks: "This holds no number. What is it?"}
	case len(spans) > 1:
		return 0, "", false, &Doubt{Text: c.Text, Asks: "This holds more than one number. Which one counts?"}
	}
	digits := text[spans[0][0]:spans[0][1]]
	words = strings.TrimSpace(text[:spans[0][0]] + " " + text[spans[0][1]:])
	if eitherComma.MatchString(digits) {
		return 0, "", false, &Doubt{Text: c.Text, Asks: "Does the comma part thousands or decimals?",
			Candidates: []string{strings.Replace(digits, ",", "", 1), strings.Replace(digits, ",", ".", 1)}}
	}
	value, err = strconv.ParseFloat(ungrouped(digits), 64)
	if err != nil {
		return 0, "", false, &Doubt{Text: c.Text, Asks: "This number is beyond all measure. What is it?"}
	}
	return value, words, true, nil
}

// ungrouped takes the separators of thousands out and makes the decimal
// separator a point.
func ungrouped(digits string) string {
	digits = strings.NewReplacer(" ", "", "'", "").Replace(digits)
	last := strings.LastIndexAny(digits, ".,")
	if last < 0 {
		return digits
	}
	decimal := digits[last:]
	if strings.Count(digits, decimal[:1]) > 1 {
		return strings.NewReplacer(".", "", ",", "").Replace(digits)
	}
	return strings.NewReplacer(".", "", ",", "").Replace(digits[:last]) + "." + decimal[1:]
}

// percentOf reads the number of a cell that is shown in percent: the file holds
// 0.94 for 94 %.
func percentOf(stored string) (value float64, words string, found bool, err error) {
	value, err = strconv.ParseFloat(stored, 64)
	return math.Round(value*1e8) / 1e6, "%", err == nil, err
}

// plainDecimal reports whether s is digits with at most a sign and a point.
func plainDecimal(s string) bool {
	s = strings.TrimLeft(s, "+-")
	whole, decimals, _ := strings.Cut(s, ".")
	return whole+decimals != "" && strings.Trim(whole+decimals, "0123456789") == ""
}
