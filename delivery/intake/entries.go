package intake

import (
	"reflect"
	"slices"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/inventory/gas"
)

// entry is what one row says of a person, or of a ward that has things.
type entry struct {
	line    *line
	name    named
	record  string
	person  delivery.Person   // as far as the row tells
	address *delivery.Address // as far as the row tells; of the rows that tell nothing the same one
	who     *person

	out, in  time.Time // hand-over, return
	readAt   time.Time
	kit      []held // until it is lent
	lends    bool   // it had a kit
	loans    []*loan
	ordered  time.Time
	order    *delivery.Ordered
	ward     string
	breathes delivery.Breathes
	since    time.Time
	called   time.Time
	call     *delivery.Called
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
	if l.sums() {
		r.leaveOut(l, "is a row of totals")
		return
	}
	e := &entry{line: l, name: r.nameOf(l), record: recordNumber(l.text("record"))}
	if e.name.test {
		r.leaveOut(l, "is a test row")
		return
	}
	if e.name.ward == "" && e.name.shown() == "" && e.record == "" {
		r.leaveOut(l, "names nobody")
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
	home := delivery.Address{
		Street: l.text("street"), Town: l.text("town"), Line: l.text("power line"), Access: l.text("access"),
		Mains: delivery.Mains(l.word(r.inquiry, "mains", mains)), Smoker: l.word(r.inquiry, "smoker", smokes),
		Heater: l.text("heater"), Pets: l.text("pets"),
		Point: delivery.Point{Area: l.text("area")}, Postcode: l.text("postcode"),
	}
	if floors := r.number(l, "floors", 0, 60, "floors", "floor", "flights", "flight", "fl"); floors != nil {
		home.Stairs = int(*floors)
	}
	lat, lon := r.number(l, "latitude", -90, 90, "°"), r.number(l, "longitude", -180, 180, "°")
	switch {
	case lat != nil && lon != nil:
		home.Point.Lat, home.Point.Lon = *lat, *lon
	case lat != nil || lon != nil:
		l.refuse("Latitude and longitude belong together; one is missing.")
	}
	if e.address = &home; reflect.ValueOf(home).IsZero() {
		e.address = nowhere
	}
}

// nowhere is the home of rows that tell nothing of one: a ledger has a hundred
// thousand of them.
var nowhere = new(delivery.Address)

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
		e.call = &delivery.Called{Answered: true, SpO2: r.number(l, "spo2", 0, 100, "%"), Flow: r.flow(l, "flow in use")}
		e.call.Band = r.programme.Bands.Band(*e.call)
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
