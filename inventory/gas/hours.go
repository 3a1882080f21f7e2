package gas

import (
	"fmt"
	"slices"
	"time"
)

// longestMeter is more hours than any concentrator has run, twenty-two years.
const longestMeter = 200_000

const hoursNextStep = "Write what the hours meter shows, as 1204.5"

// ParseHours reads an hours meter: "1204.5", "1 204.5", "1,204", "1204,5 h".
// Meters show tenths or hundredths of an hour, never thousandths, so a comma
// before three digits groups thousands. A lone point before three digits
// comes back as a *Question.
func ParseHours(text string) (time.Duration, error) {
	number, unit := splitNumeral(tidy(text))
	n, err := readNumeral(number)
	if err != nil || !slices.Contains([]string{"", "h", "hr", "hrs", "hour", "hours"}, unit) {
		return 0, fmt.Errorf("%q is not an hours meter reading. %s", text, hoursNextStep)
	}
	if n.decimal < 0 || n.english() > longestMeter {
		return 0, fmt.Errorf("%q is outside 0 to %s hours. %s", text, grouped(longestMeter), hoursNextStep)
	}
	if n.mark == '.' {
		return 0, &Question{Text: text, Asks: "is the point between thousands or before decimals?", Careful: noneCareful,
			Candidates: []Candidate{
				{Says: trimmed(n.decimal, 2) + " h", Hours: inHours(n.decimal)},
				{Says: trimmed(n.grouped, 0) + " h", Hours: inHours(n.grouped)},
			}}
	}
	return inHours(n.english()), nil
}

// inHours converts to a duration in whole seconds; a hundredth of an hour is
// 36 of them.
func inHours(h float64) time.Duration {
	return time.Duration(h * float64(time.Hour)).Round(time.Second)
}
