package paper

import (
	"cmp"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"

	"lungwort/inventory/refusal"
	"lungwort/labels/scene"
	"lungwort/labels/tongue"
)

// Leaflet is what a household keeps at the kitchen table: whom to ring, what was
// lent, how to change between cylinder and machine, what to do in a power cut,
// what the numbers mean, and fire. It speaks the household's language.
type Leaflet struct {
	Head
	Tongue       tongue.Tongue
	Name         string
	Rest         string // ordered flows in L/min, figures only; empty for none
	Exertion     string
	Asleep       string
	Phone        string // whom to ring about the kit
	Numbers      []Phone
	Kit          []LeafletThing
	WarmUp       string    // of the machine, "20 min"
	FireDistance string    // "3 m (10 ft)"
	Lasts        string    // safe end of what the cylinders last, "3 h 10 min"; empty when nobody knows
	LastsAt      string    // at this flow in L/min
	Counted      time.Time // when that was counted
	Target       string    // the programme's target saturation in percent
	Borderline   string    // tell the clinician from this flow on; empty: the clinician's own bands hold
	High         string    // emergency department from this flow on; empty: as above
}

// LeafletThing is one thing of the kit, named in the household's language where
// the language knows it.
type LeafletThing struct {
	Key  string // of the language, "cylinder"; empty for other things
	More string // beside its name: "US-E"; or all of its name where there is no key
	// Worth is what it costs to replace, as a letter says it; empty: not known.
	Worth string
	Item
}

// Named is the thing in the household's language.
func (t LeafletThing) Named(in tongue.Tongue) string {
	return strings.Join(present(in.Say("kit."+cmp.Or(t.Key, "-")), t.More), " ")
}

// Print writes the leaflet. A language with letters that the fonts lack is
// refused: half a word is worse than none.
func (l Leaflet) Print(w io.Writer) (Result, error) {
	if err := setInFull(l.Tongue); err != nil {
		return Result{}, err
	}
	s, err := newSheet(l.Head, l.Format, "Household leaflet", l.Tongue.Say("title"))
	if err != nil {
		return Result{}, err
	}
	s.speak(l.Tongue)
	s.newPage()
	s.leafletFront(l)
	s.leafletSteps(l)
	s.leafletOutage(l)
	s.leafletNumbers(l)
	s.leafletFire(l)
	return s.finish(w)
}

// setInFull refuses a language that holds signs our fonts can't show.
func setInFull(t tongue.Tongue) error {
	for _, text := range t.Texts() {
		if _, unshown := clean(text); len(unshown) > 0 {
			return refusal.New(refusal.Invalid, fmt.Sprintf("The fonts of this program don't hold the letters of %s, as in %q.", t.Name, text),
				"Print the leaflet in a language the household reads, with an interpreter.")
		}
	}
	return nil
}

// leafletFront is whom to ring, the ordered flow, and the kit.
func (s *sheet) leafletFront(l Leaflet) {
	say := l.Tongue.Say
	s.y += s.paragraph(s.left(), s.y, largest, s.width(), l.Name, 2) + 1
	s.largeHeading(say("ring.title"), 40)
	s.emergencyBox(l.Emergency, say("ring.emergency"))
	for _, p := range append([]Phone{{say("ring.kit"), l.Phone}}, l.Numbers...) {
		if p.Number != "" {
			s.ringLine(p)
		}
	}
	s.largeHeading(say("flow.title"), 20)
	flows := 0
	for _, f := range []fact{{"flow.rest", l.Rest}, {"flow.exertion", l.Exertion}, {"flow.sleep", l.Asleep}} {
		if f.value != "" {
			s.say(largeStrong, say(f.word, "flow", f.value))
			flows++
		}
	}
	if flows == 0 {
		s.say(largeStrong, say("flow.none"))
	}
	s.say(large, say("flow.caution"))
	s.leafletKit(l)
}

// emergencyBox sets the emergency number as large as the page allows.
func (s *sheet) emergencyBox(number, words string) {
	numberWide := min(largest.width(s.clean(number))+10, s.width()/2)
	wide := s.width() - numberWide - 6
	text := said{largeStrong, words}
	tall := max(17, text.height(s.document, wide)+6)
	s.need(tall + 2)
	s.ground(s.left(), s.y, numberWide, tall, black)
	s.wordsOn(s.left()+5, s.y+(tall-largest.leading())/2, largest, white, fit(largest, s.clean(number), numberWide-6))
	s.box(s.left(), s.y, s.width(), tall, 0.9)
	text.draw(s.document, s.left()+numberWide+3, s.y+(tall-text.height(s.document, wide))/2, wide)
	s.y += tall + 2
}

// ringLine sets a number and when to ring it.
func (s *sheet) ringLine(p Phone) {
	const wide MM = 48
	words := said{large, p.Whose}
	number := said{largeStrong, p.Number}
	tall := max(words.height(s.document, s.width()-wide), number.height(s.document, wide-2))
	s.need(tall + 1)
	number.draw(s.document, s.left(), s.y, wide-2)
	words.draw(s.document, s.left()+wide, s.y, s.width()-wide)
	s.y += tall + 1
}

// leafletKit lists what stands in the home, after its picture. What fits on one
// page is not torn.
func (s *sheet) leafletKit(l Leaflet) {
	say := l.Tongue.Say
	columns := []column{{say("kit.count"), 20}, {say("kit.what"), s.width() - 116}, {say("kit.tag"), 44}, {say("kit.serial"), 52}}
	tall := largeHead.leading() + 6 + pictureTall + 3 + s.headerHeight()
	var rows [][]cell
	for _, t := range l.Kit {
		row := []cell{
			said{largeStrong, strconv.Itoa(t.quantity())}, said{large, t.Named(l.Tongue)}, said{large, t.Tag}, said{largeStrong, t.Serial},
		}
		rows = append(rows, row)
		tall += s.rowHeight(columns, row)
	}
	s.need(min(tall, s.bottom()-edge-headHeight-2))
	s.largeHeading(say("kit.title"), pictureTall+3)
	s.pictured(drawnStep{scene.TheKit, "", say("kit.lent")})
	s.table(columns, rows)
}

// leafletSteps is how to change to the machine, and back.
func (s *sheet) leafletSteps(l Leaflet) {
	say := func(key string) string {
		return l.Tongue.Say(key, "minutes", l.WarmUp, "flow", l.ownFlow(), "phone", cmp.Or(l.Phone, l.Emergency))
	}
	s.newPage()
	s.largeHeading(say("over.title"), 60)
	s.steps([]drawnStep{
		{scene.PlugIn, "", say("over.1")}, {scene.SwitchOn, l.WarmUp, say("over.2")}, {scene.SetFlow, "", say("over.3")},
		{scene.ToMachine, "", say("over.4")}, {scene.FeelGas, "", say("over.5")}, {scene.ShutValve, "", say("over.6")},
	})
	s.newPage()
	s.largeHeading(say("back.title"), 60)
	s.steps([]drawnStep{
		{scene.OpenValve, "", say("back.1")}, {scene.ReadGauge, "", say("back.2")}, {scene.SetFlow, "", say("back.3")},
		{scene.ToCylinder, "", say("back.4")}, {scene.FeelGas, "", say("back.5")}, {scene.RingUp, "", say("back.6")},
	})
}

// ownFlow is the flow to set at rest; a line to write on where there is none.
func (l Leaflet) ownFlow() string { return cmp.Or(l.Rest, "____") }

// leafletOutage is the plan for a power cut, and the check of the line.
func (s *sheet) leafletOutage(l Leaflet) {
	say := l.Tongue.Say
	s.newPage()
	s.largeHeading(say("outage.title"), 60)
	if l.Lasts != "" {
		s.pictured(drawnStep{scene.PowerOut, "", say("outage.lasts", "hours", l.Lasts, "flow", l.LastsAt, "facts", l.Tongue.Moment(l.Counted))})
	} else {
		s.pictured(drawnStep{scene.PowerOut, "", say("outage.unknown")})
		s.box(s.left()+pictureWide+5, s.y-17, 60, 12, 0.5)
	}
	s.numbered(sayAll(l.Tongue, "outage", 5, "emergency", l.Emergency))
	s.largeHeading(say("line.title"), 60)
	s.picture(s.left(), s.y, scene.CheckLine.Draw(""))
	s.y += pictureTall + 3
	s.numbered(sayAll(l.Tongue, "line", 5))
}

// sayAll returns the texts key.1 to key.n.
func sayAll(t tongue.Tongue, key string, n int, pairs ...string) []string {
	texts := make([]string, n)
	for i := range texts {
		texts[i] = t.Say(fmt.Sprintf("%s.%d", key, i+1), pairs...)
	}
	return texts
}

// leafletNumbers is what the programme has set; it leaves flow bands out where
// the clinician's own hold.
func (s *sheet) leafletNumbers(l Leaflet) {
	say := func(key string, pairs ...string) string {
		return l.Tongue.Say(key, append(pairs, "target", l.Target, "emergency", l.Emergency, "programme", l.Programme)...)
	}
	s.newPage()
	s.largeHeading(say("numbers.title"), 60)
	s.largeText(large, say("numbers.by"))
	s.largeText(largeStrong, say("flow.caution"))
	if l.Target != "" {
		s.pictured(drawnStep{scene.Finger, "", say("numbers.oxygen")})
	}
	if l.Borderline != "" {
		s.largeText(large, say("numbers.borderline", "flow", l.Borderline))
	}
	if l.High != "" {
		s.largeText(largeStrong, say("numbers.high", "flow", l.High))
	}
	s.largeText(largeStrong, say("numbers.worse"))
	s.pictured(drawnStep{scene.ReadGauge, "", say("numbers.gauge")})
}

// leafletFire is what burns, and what to do then.
func (s *sheet) leafletFire(l Leaflet) {
	say := func(key string) string {
		return l.Tongue.Say(key, "distance", l.FireDistance, "emergency", l.Emergency)
	}
	s.newPage()
	s.largeHeading(say("fire.title"), 60)
	metres, _, _ := strings.Cut(l.FireDistance, " (")
	for _, p := range []drawnStep{
		{scene.NoSmoking, "", say("fire.1")}, {scene.KeepAway, metres, say("fire.2")},
		{scene.NoGrease, "", say("fire.3")}, {scene.Upright, "", say("fire.4")},
	} {
		s.pictured(p)
	}
	s.largeText(large, say("fire.5"))
	s.largeText(largeStrong, say("fire.6"))
	s.largeText(large, say("fire.law"))
}
