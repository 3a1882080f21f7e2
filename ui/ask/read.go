package ask

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"lungwort/inventory/gas"
)

// Reader turns answers into values. What it can't read is collected, so that
// everything wrong is shown at once.
type Reader struct {
	answers Answers
	wrong   Wrong
}

// Read returns a reader of answers.
func Read(a Answers) *Reader { return &Reader{answers: a, wrong: Wrong{}} }

// Wrong returns what could not be read.
func (r *Reader) Wrong() Wrong { return r.wrong }

// Text returns a text that may be left out.
func (r *Reader) Text(key string) string { return r.answers.Text(key) }

// Fail says what is wrong with an answer.
func (r *Reader) Fail(key string, err error) {
	if err != nil && r.wrong[key] == nil {
		r.wrong[key] = err
	}
}

// Need returns a text that can't be left out; missing says what to write.
func (r *Reader) Need(key, missing string) string {
	text := r.answers.Text(key)
	if text == "" {
		r.Fail(key, errors.New(missing))
	}
	return text
}

// Gauge returns a gauge pressure; nil when none is written. A bare number is
// in psi, the unit that stands beside the field.
func (r *Reader) Gauge(key string) *gas.Pressure {
	text := r.answers.Text(key)
	if text == "" {
		return nil
	}
	if last := text[len(text)-1]; last >= '0' && last <= '9' {
		text += " psi"
	}
	p, err := gas.ParsePressure(text)
	if err != nil {
		r.Fail(key, err)
		return nil
	}
	return &p
}

// Weight returns a weight; nil when none is written. A bare number is in kg, the
// unit that stands beside the field.
func (r *Reader) Weight(key string) *gas.Kilograms {
	text := r.answers.Text(key)
	if text == "" {
		return nil
	}
	if last := text[len(text)-1]; last >= '0' && last <= '9' {
		text += " kg"
	}
	w, err := gas.ParseKilograms(text)
	if err != nil {
		r.Fail(key, err)
		return nil
	}
	return &w
}

// Flow returns a flow; nil when none is written.
func (r *Reader) Flow(key string) *gas.Flow {
	text := r.answers.Text(key)
	if text == "" {
		return nil
	}
	f, err := gas.ParseFlow(text)
	if err != nil {
		r.Fail(key, err)
		return nil
	}
	return &f
}

// Temperature returns the temperature of a field, nil when it is empty.
func (r *Reader) Temperature(key string) *gas.Celsius {
	text := r.Text(key)
	if text == "" {
		return nil
	}
	t, err := gas.ParseTemperature(text)
	if err != nil {
		r.Fail(key, err)
		return nil
	}
	return &t
}

// Number returns a number between two ends; nil when none is written. Behind
// it may stand the unit.
func (r *Reader) Number(key, unit string, least, most float64) *float64 {
	text := strings.TrimSpace(strings.TrimSuffix(r.answers.Text(key), unit))
	if text == "" {
		return nil
	}
	n, err := strconv.ParseFloat(strings.ReplaceAll(text, " ", ""), 64)
	switch {
	case err != nil:
		r.Fail(key, fmt.Errorf("“%s” is not a number: write it as 92 or 92.5", text))
		return nil
	case !(n >= least && n <= most):
		r.Fail(key, fmt.Errorf("%g is not between %g and %g %s: read it again", n, least, most, unit))
		return nil
	}
	return &n
}

// Exact returns when something happened that was keyed to the minute: the very
// present for the present minute, so that it does not fall before what was
// done seconds ago.
func Exact(keyed, now time.Time) time.Time {
	if keyed.Truncate(time.Minute).Equal(now.Truncate(time.Minute)) {
		return now
	}
	return keyed
}

// Past returns when something happened, which is not ahead of now.
func (r *Reader) Past(key string, now time.Time) time.Time {
	t := r.Time(key, now.Location())
	if err := late(t, now); err != nil {
		r.Fail(key, err)
		return now
	}
	return Exact(t, now)
}

// Time returns a time in RFC 3339; zero when none is written.
func (r *Reader) Time(key string, loc *time.Location) time.Time {
	text := r.answers.Text(key)
	if text == "" {
		return time.Time{}
	}
	t, err := time.Parse(time.RFC3339, text)
	if err != nil {
		r.Fail(key, errors.New(text))
		return time.Time{}
	}
	return t.In(loc)
}
