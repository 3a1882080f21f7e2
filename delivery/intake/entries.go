package intake

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// entry is what one row says of a person, or of a ward that has things.
type entry struct {
	line    *line
	name    named
	record  string
	person  delivery.Person // as far as the row tells
	address delivery.Address
	who     *person

	out, in  time.Time // hand-over, return
	readAt   time.Time
	kit      []held
	ordered  time.Time
	order    *delivery.Ordered
	ward     string
	breathes delivery.Breathes
	since    time.Time
	called   time.Time
	call     delivery.Called
	stopped  time.Time
	stoppedB string
}

// held is one thing a row lends.
type held struct {
	thing *thing
	gauge *gas.Pressure
	lot   string
	hours *float64
	back  *float64 // hours at return
}

// readEntry reads one row of a person list or a ledger.
func (r *reader) readEntry(l *line) {
	e := &entry{line: l, name: r.nameOf(l), record: recordNumber(l.text("record"))}
	if e.name.test {
		l.dropped = true
		r.notice("%s is a test row and is left out.", l.where())
		return
	}
	if e.name.ward == "" && e.name.shown() == "" && e.record == "" {
		l.dropped = true
		r.notice("%s names nobody and is left out.", l.where())
		return
	}
	r.identity(l, e)
	r.times(l, e)
	r.prescription(l, e)
	r.kit(l, e)
	r.entries = append(r.entries, e)
}

// nameOf reads the name from one column or two.
func (r *reader) nameOf(l *line) named {
	family, given := l.text("family"), l.text("given")
	if family+given == "" {
		return readName(l.text("name"))
	}
	n := readName(family)
	n.ward, n.test = "", testRow.MatchString(family+" "+given)
	if n.sameAs == "" {
		n.family, n.given, n.sure = bare(family), strings.TrimSpace(given), true
	}
	return n
}

// bare returns a family name without what stands in brackets beside it, and
// without the word that the person died.
func bare(family string) string {
	family = wordsForEnd.ReplaceAllString(inParens.ReplaceAllString(family, " "), " ")
	return strings.Trim(strings.Join(strings.Fields(family), " "), " -–—,;:")
}

// recordNumber returns a record number as it is kept; zero is none.
func recordNumber(text string) string {
	if strings.Trim(text, "0 ") == "" {
		return ""
	}
	return strings.Join(strings.Fields(text), " ")
}

// identity reads who the person is and where the home is.
func (r *reader) identity(l *line, e *entry) {
	e.person = delivery.Person{
		Record: e.record, Language: l.text("language"), Note: joined(e.name.note, r.remarks(l)),
		Phones: slices.Concat(phones(l.text("phone")), phones(l.text("phone 2")), e.name.phones),
	}
	for _, p := range e.person.Phones {
		if shortened.MatchString(strings.ToUpper(p.Number)) {
			l.refuse("%s “%s” was shortened to a number by the spreadsheet. Write the phone number as text.", l.heading("phone"), p.Number)
		}
	}
	if born := r.day(l, "born"); !born.IsZero() {
		e.person.Born = born.Format(time.DateOnly)
	}
	e.address = delivery.Address{
		Street: l.text("street"), Town: l.text("town"), Line: l.text("power line"), Access: l.text("access"),
		Mains: delivery.Mains(l.word(r.inquiry, "mains", mains)), Smoker: l.word(r.inquiry, "smoker", smokes),
		Heater: l.text("heater"), Pets: l.text("pets"),
		Point: delivery.Point{Area: l.text("area")},
	}
	if floors := r.number(l, "floors", 0, 60, "floors", "floor", "flights", "flight", "fl"); floors != nil {
		e.address.Stairs = int(*floors)
	}
	lat, lon := r.number(l, "latitude", -90, 90, "°"), r.number(l, "longitude", -180, 180, "°")
	switch {
	case lat != nil && lon != nil:
		e.address.Point.Lat, e.address.Point.Lon = *lat, *lon
	case lat != nil || lon != nil:
		l.refuse("Latitude and longitude belong together; one is missing.")
	}
}

var mains = []choiceWord{
	{string(delivery.MainsYes), "there is mains power", []string{"yes", "y", "grid", "mains power", "power"}},
	{string(delivery.MainsPrepaid), "there is, by prepaid meter", []string{"prepaid", "prepay", "pre-paid", "pre-paid meter", "prepayment meter"}},
	{string(delivery.MainsNo), "there is none", []string{"no", "n", "off grid", "off-grid", "generator", "solar"}},
}

var smokes = []choiceWord{
	{"yes", "somebody smokes there", []string{"y", "smoker", "smokes", "current", "true"}},
	{"no", "nobody smokes there", []string{"n", "non-smoker", "nonsmoker", "never", "non smoker", "false"}},
	{"asked and not told", "asked, without an answer", []string{"asked", "refused", "not told", "won't say"}},
}

// remarks returns the notes of a row, with what stands in columns that mean
// nothing to the program, so that nothing is lost.
func (r *reader) remarks(l *line) string {
	note := l.notes()
	m := l.list.mapping
	used := map[int]bool{}
	for _, column := range m.Columns {
		used[column] = true
	}
	for _, d := range m.Doubtful {
		used[d.Column] = true
	}
	for i, c := range l.row.Cells {
		if used[i] || c.Blank() || i >= m.Width {
			continue
		}
		note = joined(note, strings.TrimSpace(l.list.headingAt(i)+" "+c.Text))
	}
	return note
}

// headingAt returns the heading of a column that has no meaning.
func (l *list) headingAt(column int) string {
	for _, row := range l.table.Rows {
		if row.Number == l.mapping.Row {
			if heading := row.Cell(column).Text; heading != "" {
				return heading + ":"
			}
			return ""
		}
	}
	return ""
}

// times reads when the row's things happened.
func (r *reader) times(l *line, e *entry) {
	e.out = r.day(l, "date out")
	if e.out.IsZero() {
		e.out = r.day(l, "out")
	}
	e.in = r.day(l, "date in")
	e.readAt, e.since, e.ordered = r.day(l, "read at"), r.day(l, "since"), r.day(l, "ordered")
	e.ward = l.text("ward")
	e.breathes = delivery.Breathes(l.word(r.inquiry, "breathes", breathing))
	if e.called = r.day(l, "last call"); !e.called.IsZero() {
		e.call = delivery.Called{Answered: true, SpO2: r.number(l, "spo2", 0, 100, "%"), Flow: r.flow(l, "flow in use")}
		e.call.Band = r.programme.Bands.Band(e.call)
	} else if l.text("last call") == "" && l.text("spo2")+l.text("flow in use") != "" {
		r.finding("%s: saturation or flow in use stand without the time of the call and stay out.", l.where())
	}
	if e.stopped = r.day(l, "stopped"); !e.stopped.IsZero() {
		e.stoppedB = r.stoppedBy(l)
	}
	if !e.in.IsZero() && !e.out.IsZero() && e.in.Before(e.out) {
		r.finding("%s: came in on %s, before it went out on %s. Both are recorded as written; ask which is right.",
			l.where(), e.in.Format("2 Jan 2006"), e.out.Format("2 Jan 2006"))
	}
}

var breathing = []choiceWord{
	{string(delivery.FromConcentrator), "a concentrator runs", []string{"conc", "machine", "concentrator running", "running"}},
	{string(delivery.FromCylinder), "from a cylinder", []string{"cyl", "tank", "bottle", "cylinders", "tanks"}},
}

func (r *reader) stoppedBy(l *line) string {
	if by := l.text("stopped by"); by != "" {
		return by
	}
	answer, _ := r.ask(l, Question{
		Key: "stopped by:" + l.list.name(), Asks: fmt.Sprintf("Who ordered that the oxygen was stopped, in %s? A stop names the clinician.", l.list.name()),
	}, "")
	return answer
}

// prescription reads the order. A list that has no hours a day leaves them
// open; for cover the whole day counts.
func (r *reader) prescription(l *line, e *entry) {
	rest := r.flow(l, "rest")
	o := delivery.Ordered{Device: l.text("device"), Setting: l.text("setting"), Prescriber: l.text("prescriber")}
	for key, into := range map[string]*gas.Flow{"exertion": &o.Exertion, "asleep": &o.Asleep} {
		if flow := r.flow(l, key); flow != nil {
			*into = *flow
		}
	}
	if l.exertion != nil && o.Exertion == 0 {
		o.Exertion = *l.exertion
	}
	if hours := r.number(l, "hours a day", 0, 24, "h", "hrs", "hours"); hours != nil {
		o.Hours = *hours
	}
	o.Review = r.anyDay(l, "review")
	if rest != nil {
		o.Rest = *rest
	}
	switch {
	case o.Rest > 0 || o.Setting != "":
		e.order = &o
	case rest != nil && o.Exertion+o.Asleep > 0:
		e.order = &o
	}
}

// lent lists the columns of things lent, with the kind each is of.
var lent = []struct {
	key  string
	kind inventory.Kind
}{
	{"concentrator", inventory.Concentrator}, {"cylinder", inventory.Cylinder},
	{"regulator", inventory.Regulator}, {"oximeter", inventory.Oximeter}, {"items", ""},
}

// kit reads what the row lends, with the readings of it.
func (r *reader) kit(l *line, e *entry) {
	for _, column := range lent {
		for _, text := range l.serials(column.key) {
			if t := r.lentThing(l, text, column.kind); t != nil {
				e.kit = append(e.kit, held{thing: t})
			}
		}
	}
	r.gauges(l, e)
	hours, back := r.meter(l, "hours"), r.meter(l, "hours in")
	lot := r.written(r.lots, l.text("lot"))
	machines := 0
	for i := range e.kit {
		h := &e.kit[i]
		switch h.thing.spec.Kind {
		case inventory.Cylinder:
			h.lot = lot
		case inventory.Concentrator:
			machines++
			h.hours, h.back = hours, back
		}
	}
	if machines > 1 && hours != nil {
		l.refuse("%s has one value for %d concentrators. Write one row for each.", l.heading("hours"), machines)
	}
	if l.list.sort == ofPeople && (hours != nil || slices.ContainsFunc(e.kit, func(h held) bool { return h.gauge != nil })) {
		e.readAt = r.readingTime(l, e.readAt, e.out)
	}
	if len(e.kit) > 0 && e.out.IsZero() && len(l.refuses) == 0 {
		e.out = r.handOver(l, e)
	}
}

// lentThing returns the thing a serial names: of the book, of an item list,
// or new. What is new and can't be told by its column is asked about.
func (r *reader) lentThing(l *line, text string, kind inventory.Kind) *thing {
	if r.serials.open[inventory.SerialKey(text)] {
		return nil // the line waits for the question about it
	}
	serial := r.written(r.serials, text)
	found := r.things.find(inventory.SerialKey(serial), kind)
	switch {
	case len(found) == 1:
		r.inherit(l, found[0])
		return found[0]
	case len(found) > 1:
		l.refuse("%d things carry the serial %s. Write it into the column of its kind.", len(found), serial)
		return nil
	}
	if other := r.things.find(inventory.SerialKey(serial), ""); kind != "" && len(other) > 0 {
		l.refuse("%s “%s” is a %s elsewhere. Write it into the column of its kind.", l.heading(string(kind)), text, orNothing(string(other[0].spec.Kind)))
		return nil
	}
	spec := inventory.Spec{Kind: kind, Serial: serial}
	if kind == "" && l.text("kind") != "" {
		spec.Kind = inventory.Kind(l.word(r.inquiry, "kind", kinds))
		if spec.Kind == "" {
			return nil
		}
	}
	if spec.Kind == "" && !r.whatIs(l, &spec) {
		return nil
	}
	if spec.Kind == inventory.Cylinder && spec.Size == "" {
		size, ok := r.size(l, serial)
		if !ok {
			return nil
		}
		spec.Size = size.Code
	}
	return r.things.add(&thing{spec: spec, named: l})
}

// inherit makes a row wait for what the row of the item list waits for.
func (r *reader) inherit(l *line, t *thing) {
	if t.stock == nil || t.item != nil {
		return
	}
	r.share(l, t.stock.line)
}

// whatIs asks what the things are whose serials begin alike and that neither
// the book nor an item list has.
func (r *reader) whatIs(l *line, spec *inventory.Spec) bool {
	prefix := lettersInFront.FindString(inventory.SerialKey(spec.Serial))
	choices := []Choice{{"concentrator", ""}, {"regulator", ""}, {"oximeter", ""}}
	for _, s := range gas.Sizes() {
		if s.Region == r.programme.Region {
			choices = append(choices, Choice{"cylinder " + string(s.Code), s.Contents.String() + " when full"})
		}
	}
	answer, ok := r.ask(l, Question{
		Key:     "thing:" + prefix,
		Asks:    fmt.Sprintf("Neither the book nor an item list has these serials that begin with “%s”. What are they?", prefix),
		Choices: choices,
	}, spec.Serial)
	if !ok {
		return false
	}
	kind, size, _ := strings.Cut(answer, " ")
	spec.Kind, spec.Size = inventory.Kind(kind), gas.SizeCode(size)
	return true
}

// gauges gives each cylinder its reading, in the order they are written.
func (r *reader) gauges(l *line, e *entry) {
	var cylinders []*held
	for i := range e.kit {
		if e.kit[i].thing.spec.Kind == inventory.Cylinder {
			cylinders = append(cylinders, &e.kit[i])
		}
	}
	text := l.text("gauge")
	if text == "" || len(l.waits) > 0 && len(cylinders) == 0 {
		return
	}
	parts := readings(text, len(cylinders))
	switch {
	case len(cylinders) == 0:
		r.finding("%s: %s “%s” stands without a cylinder and stays out.", l.where(), l.heading("gauge"), text)
		return
	case len(parts) > len(cylinders), l.list.sort == ledger && len(parts) != len(cylinders):
		if len(l.waits) == 0 {
			l.refuse("%s “%s” has %d readings for %d cylinders.", l.heading("gauge"), text, len(parts), len(cylinders))
		}
		return
	}
	for i, part := range parts {
		size, _ := gas.LookUp(cylinders[i].thing.spec.Size)
		cylinders[i].gauge = r.pressure(l, "gauge", part, size.Service)
	}
}

// The answers to when things without a date were handed over.
const (
	atHandOver = "at hand-over"
	asAbove    = "as the row above"
)

// handOver asks for the day of a hand-over that has none.
func (r *reader) handOver(l *line, e *entry) time.Time {
	for _, key := range []string{"date out", "out"} {
		if l.text(key) != "" {
			return time.Time{} // there is one, and it is asked about
		}
	}
	choices := []Choice{}
	above := r.above(l)
	if above != nil {
		choices = append(choices, Choice{asAbove, "the day was written once for several rows"})
	}
	answer, ok := r.ask(l, Question{
		Key:     "no date:" + l.list.name(),
		Asks:    fmt.Sprintf("Rows of %s lend things without a day. When were they handed over? Write a day as 2025-03-31.", l.list.name()),
		Choices: choices, free: true,
	}, e.name.shown())
	switch {
	case !ok:
		return time.Time{}
	case answer == asAbove && above != nil:
		r.share(l, above.line)
		return above.out
	}
	t, err := time.ParseInLocation(time.DateOnly, answer, r.at.Location())
	if err != nil || t.After(r.at) {
		l.refuse("“%s” is no day of a hand-over. Write it as 2025-03-31.", answer)
		return time.Time{}
	}
	return t
}

// above returns the entry of the row right above.
func (r *reader) above(l *line) *entry {
	if n := len(r.entries); n > 0 && r.entries[n-1].line.list == l.list {
		return r.entries[n-1]
	}
	return nil
}

// share makes a row wait for what another row waits for.
func (r *reader) share(l, with *line) {
	for _, q := range with.waits {
		if !slices.Contains(q.lines, l) {
			q.lines = append(q.lines, l)
			l.waits = append(l.waits, q)
		}
	}
}
