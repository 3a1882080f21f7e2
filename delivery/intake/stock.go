package intake

import (
	"fmt"
	"regexp"
	"strings"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// stock is what one row of an item list says.
type stock struct {
	line   *line
	spec   inventory.Spec
	place  inventory.Place
	state  inventory.State
	since  time.Time
	readAt time.Time
	filled time.Time
	lot    string
	full   gas.Pressure
	seen   inventory.Observed
	moot   bool // place and status: another list was said to know better
}

var kinds = []choiceWord{
	{string(inventory.Cylinder), "", []string{"cyl", "cylinders", "tank", "tanks", "oxygen cylinder", "o2 cylinder", "oxygen tank", "o2 tank", "bottle"}},
	{string(inventory.Concentrator), "", []string{"conc", "concentrators", "oxygen concentrator", "stationary concentrator", "machine"}},
	{string(inventory.Regulator), "", []string{"reg", "regulators", "oxygen regulator"}},
	{string(inventory.Oximeter), "", []string{"oximeters", "pulse oximeter", "pulse ox", "spo2 meter"}},
	{string(inventory.Cart), "", []string{"carts", "cylinder cart", "cylinder carts", "trolley"}},
	{string(inventory.Vessel), "", []string{"lox", "liquid vessels", "liquid oxygen vessel", "liquid reservoir"}},
}

// readStock reads one row of an item list.
func (r *reader) readStock(l *line) {
	serials := l.serials("serial")
	switch {
	case l.sums():
		l.refuses = nil
		r.leaveOut(l, "is a row of totals")
		return
	case len(l.refuses) > 0:
		return
	case len(serials) == 0 && l.text("kind")+l.text("size")+l.text("model") == "":
		r.leaveOut(l, "holds no thing")
		return
	case len(serials) == 0:
		l.refuse("The row has no serial. Read it from the plate.")
		return
	case len(serials) > 1:
		l.refuse("%s “%s” holds %d serials; an item list has one thing in a row.", l.heading("serial"), l.text("serial"), len(serials))
		return
	}
	s := &stock{line: l}
	s.spec = inventory.Spec{
		Serial: r.written(r.serials, serials[0]), Kind: r.kind(l), Model: l.text("model"),
		Owner: r.owner(l), Requal: requalMonth(r, l),
	}
	r.fittings(l, s)
	s.since, s.readAt, s.filled = r.day(l, "since"), r.day(l, "read at"), r.day(l, "filled")
	s.lot = r.written(r.lots, l.text("lot"))
	s.state = inventory.State(l.word(r.inquiry, "status", states))
	s.place = r.place(l)
	s.seen.Hours, s.seen.Oxygen = r.meter(l, "hours"), r.number(l, "oxygen", 0, 100, "%")
	if s.seen.Gauge != nil || s.seen.Hours != nil || s.seen.Oxygen != nil {
		s.readAt = r.readingTime(l, s.readAt, s.filled)
	}
	r.stocks = append(r.stocks, s)
	r.enter(s)
}

// kind returns what sort of thing a row is about: as its own cell says, as
// the list is named, or as only one kind has such a cell.
func (r *reader) kind(l *line) inventory.Kind {
	if l.text("kind") != "" {
		return inventory.Kind(l.word(r.inquiry, "kind", kinds))
	}
	title := strings.ToLower(l.list.table.Name + " " + l.list.table.File)
	var named []inventory.Kind
	for _, k := range kinds {
		if strings.Contains(title, k.value) || strings.Contains(title, k.synonyms[2]) || strings.Contains(title, k.synonyms[1]) {
			named = append(named, inventory.Kind(k.value))
		}
	}
	switch {
	case len(named) == 1:
		return named[0]
	case l.text("size") != "":
		return inventory.Cylinder
	case l.text("rated") != "":
		return inventory.Concentrator
	}
	choices := []Choice{}
	for _, k := range kinds {
		choices = append(choices, Choice{Value: k.value})
	}
	answer, _ := r.ask(l, Question{
		Key: "kind:" + l.list.name(), Asks: fmt.Sprintf("Rows of %s don't say what kind of thing they are. Which kind?", l.list.name()), Choices: choices,
	}, l.text("serial"))
	return inventory.Kind(answer)
}

// owner returns whose a thing is; empty for the programme's own.
func (r *reader) owner(l *line) string {
	text := l.text("owner")
	switch strings.ToLower(text) {
	case "", "own", "owned", "ours", "programme", "program":
		return ""
	case "rent", "rental", "rented", "r":
		answer, _ := r.ask(l, Question{
			Key: "owner:" + l.list.name(), Asks: fmt.Sprintf("Whose are the things of %s that are marked “%s”?", l.list.name(), text),
		}, text)
		return answer
	}
	return text
}

// fittings reads what only one kind of thing has.
func (r *reader) fittings(l *line, s *stock) {
	switch s.spec.Kind {
	case inventory.Concentrator:
		if flow := r.flow(l, "rated"); flow != nil {
			s.spec.Rated = *flow
		}
	case inventory.Cylinder:
		size, ok := r.size(l, s.spec.Serial)
		if !ok {
			return
		}
		s.spec.Size, s.full = size.Code, size.Service
		if full := r.pressure(l, "full", l.text("full"), size.Service); full != nil {
			s.full = *full
		}
		s.seen.Gauge = r.pressure(l, "gauge", l.text("gauge"), size.Service)
	}
}

// size reads a cylinder's size. One that is not given is asked about, once
// for all serials that begin alike.
func (r *reader) size(l *line, serial string) (gas.Size, bool) {
	text := l.text("size")
	if text == "" {
		return r.sizeOf(l, serial)
	}
	size, err := r.programme.Sizes.Parse(text, r.programme.Region)
	if err != nil {
		l.refuse("%s: %s", l.heading("size"), strings.TrimSuffix(err.Error(), ".")+".")
	}
	return size, err == nil
}

var lettersInFront = regexp.MustCompile(`^[^0-9]*`)

func (r *reader) sizeOf(l *line, serial string) (gas.Size, bool) {
	prefix := lettersInFront.FindString(inventory.SerialKey(serial))
	choices := []Choice{}
	for _, s := range r.programme.Sizes.All() {
		if s.Region == r.programme.Region {
			choices = append(choices, Choice{string(s.Code), fmt.Sprintf("%s when full to %s", s.Contents, s.Service)})
		}
	}
	answer, ok := r.ask(l, Question{
		Key:     "size:" + prefix,
		Asks:    fmt.Sprintf("What size are the cylinders whose serials begin with “%s”? The size is on the label.", prefix),
		Choices: choices,
	}, serial)
	if !ok {
		return gas.Size{}, false
	}
	return r.programme.Sizes.LookUp(gas.SizeCode(answer))
}

var (
	monthYear = regexp.MustCompile(`^(\d{1,2})[-/.](\d{4})$`)
)

// requalMonth returns the month of requalification as 2027-05. A stamp as it
// stands on the shoulder is not a month due and is told of instead.
func requalMonth(r *reader, l *line) string {
	text := l.text("requalify by")
	if text == "" {
		return ""
	}
	for _, layout := range []string{"2006-01", "2006-1", "Jan 2006", "January 2006", "Jan-2006", "2006-01-02"} {
		if t, err := time.Parse(layout, text); err == nil {
			return t.Format("2006-01")
		}
	}
	if m := monthYear.FindStringSubmatch(strings.ReplaceAll(text, " ", "")); m != nil {
		if t, err := time.Parse("2006-1", m[2]+"-"+strings.TrimLeft(m[1], "0")); err == nil {
			return t.Format("2006-01")
		}
	}
	r.finding("%s: %s “%s” is no month and stays out. Write it as 2027-05.", l.where(), l.heading("requalify by"), text)
	return ""
}

// The answers to when undated readings were taken.
const (
	justNow    = "now"
	whenFilled = "when filled"
	noReading  = "leave out"
)

// readingTime returns when a reading was taken. A gauge without a time says
// nothing of the gas that is left, so it is asked about, once for the list.
func (r *reader) readingTime(l *line, readAt, other time.Time) time.Time {
	if !readAt.IsZero() || l.text("read at") != "" {
		return readAt
	}
	choices := []Choice{{justNow, "they were read for this list, at " + r.at.Format("2 Jan 2006 15:04")}}
	if !other.IsZero() {
		word, says := whenFilled, "when the cylinder was filled"
		if l.list.sort != ofThings {
			word, says = atHandOver, "when the thing was handed over"
		}
		choices = append(choices, Choice{word, says})
	}
	choices = append(choices, Choice{noReading, "nobody knows: the readings are left out"})
	answer, ok := r.ask(l, Question{
		Key:     "read at:" + l.list.name(),
		Asks:    fmt.Sprintf("%s has readings without a time. When were they taken?", l.list.name()),
		Choices: choices,
	}, "")
	switch {
	case !ok || answer == noReading:
		return time.Time{}
	case answer == justNow:
		return r.at
	}
	return other
}
