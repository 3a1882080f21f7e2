package settings

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// unit is one way to write an amount, and how much of the first unit it is.
type unit struct {
	name string
	is   float64
}

var amountParts = regexp.MustCompile(`^(-?[0-9]+(?:\.[0-9]+)?)\s*(.*)$`)

// amount reads a number with one of units behind it. Without a unit it is
// refused when there are several to choose from.
func amount(text string, units ...unit) (float64, error) {
	text = strings.TrimSpace(text)
	example := strings.TrimSpace("2.5 " + units[0].name)
	parts := amountParts.FindStringSubmatch(text)
	if parts == nil {
		return 0, fmt.Errorf("“%s” is not an amount: write it as %s", text, example)
	}
	n, err := strconv.ParseFloat(parts[1], 64)
	if err != nil {
		return 0, fmt.Errorf("“%s” is too large", parts[1])
	}
	if parts[2] == "" && len(units) == 1 {
		return n, nil
	}
	for _, u := range units {
		if strings.EqualFold(parts[2], u.name) {
			return n * u.is, nil
		}
	}
	if parts[2] == "" {
		return 0, fmt.Errorf("in which unit? Write it as %s", example)
	}
	return 0, fmt.Errorf("“%s” is not a unit here: write it as %s", parts[2], example)
}

// spell writes a stretch of time as gas.ParseDuration reads it.
func spell(d time.Duration) string {
	const day = 24 * time.Hour
	switch {
	case d >= 2*day && d%day == 0:
		return fmt.Sprintf("%d days", d/day)
	case d >= time.Hour && d%time.Hour == 0:
		return fmt.Sprintf("%d h", d/time.Hour)
	case d > time.Hour:
		return fmt.Sprintf("%d h %d min", d/time.Hour, d%time.Hour/time.Minute)
	}
	return fmt.Sprintf("%d min", d/time.Minute)
}

// clock reads a time of day.
func clock(text string) (string, error) {
	text = strings.TrimSpace(text)
	if _, err := time.Parse("15:04", text); err != nil {
		return "", fmt.Errorf("“%s” is not a time of day: write it as 08:00", text)
	}
	return text, nil
}

// decimals writes a number as short as it is exact.
func decimals(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
