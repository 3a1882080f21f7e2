package paper

import (
	"fmt"
	"strconv"
	"strings"
)

// loadList is the first part of a run sheet: the trip at a glance, what to
// load, and what the van is checked for.
func (s *sheet) loadList(r RunSheet) {
	s.newPage()
	facts := []fact{
		{"driver", r.Driver}, {"vehicle", r.Vehicle}, {"depart", departs(r)},
		{"from", r.Depot}, {"stops", strconv.Itoa(r.addresses())}, {"back", momentBeside(r.Back, r.Depart)},
	}
	if len(r.Breaks) > 0 {
		facts = append(facts, fact{"break", strings.Join(r.Breaks, ", ")})
	}
	s.facts(facts, 3)
	s.notice(cautions(r.FireDistance))
	s.overview(r.Stops)
	s.picks(r.Stops)
	s.load(r.Load)
	s.vanCheck(r.Load.Papers)
}

// addresses counts the stops: two persons at one address are one.
func (r RunSheet) addresses() int {
	seen := make(map[int]bool)
	for _, s := range r.Stops {
		seen[s.Number] = true
	}
	return len(seen)
}

func departs(r RunSheet) string {
	if r.Depart.IsZero() {
		return "–"
	}
	return clock(r.Depart)
}

// overview lists the stops without naming anybody.
func (s *sheet) overview(stops []Stop) {
	s.heading("The trip", 20)
	columns := []column{{"stop", 12}, {"planned", 20}, {"promised", 30}, {"act by", 22}, {"where", 58}, {"what", s.width() - 142}}
	var rows [][]cell
	for _, stop := range stops {
		rows = append(rows, []cell{
			said{heading, strconv.Itoa(stop.Number)},
			said{strong, momentBeside(stop.Planned, stop.Planned)},
			said{body, stop.promised()},
			said{strong, momentBeside(stop.ActBy, stop.Planned)},
			said{body, stop.Place},
			said{body, stop.works()},
		})
	}
	s.table(columns, rows)
}

// promised is the promised window in words.
func (p Stop) promised() string {
	switch {
	case p.PromisedFrom.IsZero() && p.PromisedTo.IsZero():
		return "no window"
	case p.PromisedFrom.IsZero():
		return "until " + momentBeside(p.PromisedTo, p.Planned)
	case p.PromisedTo.IsZero():
		return "from " + momentBeside(p.PromisedFrom, p.Planned)
	}
	return momentBeside(p.PromisedFrom, p.Planned) + "–" + momentBeside(p.PromisedTo, p.PromisedFrom)
}

// works counts the stop's tasks by kind.
func (p Stop) works() string {
	count := map[Work]int{}
	for _, t := range p.Tasks {
		count[t.Work]++
	}
	var said []string
	for _, work := range []Work{Drop, Swap, Collect} {
		if n := count[work]; n > 0 {
			said = append(said, fmt.Sprintf("%s %d", work, n))
		}
	}
	if len(said) == 0 {
		return "see its page"
	}
	return strings.Join(said, ", ")
}

// picks lists what goes on the van, last stop first, since what is loaded
// first comes out last.
func (s *sheet) picks(stops []Stop) {
	columns := []column{{"for stop", 18}, {"load", 66}, {"tag", 38}, {"serial", 34}, {"gauge", s.width() - 170}, {"on", 14}}
	var rows [][]cell
	for i := len(stops) - 1; i >= 0; i-- {
		for _, t := range stops[i].Tasks {
			if t.Work == Collect {
				continue
			}
			what := t.Leave.What
			if n := t.Leave.quantity(); n > 1 {
				what = fmt.Sprintf("%d × %s", n, what)
			}
			rows = append(rows, []cell{
				said{heading, strconv.Itoa(stops[i].Number)}, said{body, what},
				said{strong, t.Leave.Tag}, said{body, t.Leave.Serial},
				space{tickSide + 1}, ticked{},
			})
		}
	}
	if len(rows) == 0 {
		return
	}
	s.heading("Load in this order (last stop first)", 20)
	s.table(columns, rows)
}

// load gives the counts, the weight against its rule, and the spare parts.
func (s *sheet) load(l Load) {
	if len(l.Cylinders) > 0 {
		s.heading("Cylinders", 20)
		columns := []column{{"size", 40}, {"full out", 25}, {"counted", 25}, {"to come back", 32}, {"counted", 25}}
		var rows [][]cell
		for _, c := range l.Cylinders {
			rows = append(rows, []cell{
				said{strong, c.Size}, said{strong, strconv.Itoa(c.FullOut)}, space{6}, said{strong, strconv.Itoa(c.BackOld)}, space{6},
			})
		}
		s.table(columns, rows)
		s.y += 1
		s.weight(l)
	}
	if len(l.Spares) > 0 {
		s.heading("Spare parts", 12)
		var texts []string
		for _, p := range l.Spares {
			texts = append(texts, fmt.Sprintf("%d × %s", p.Quantity, p.Name))
		}
		s.ticks(texts, 3)
	}
}

// weight tells what the load weighs, what forbids leaving with it, and the rule.
func (s *sheet) weight(l Load) {
	s.say(strong, l.Weighs+".")
	for _, wrong := range l.Wrong {
		s.say(strong, "DO NOT DRIVE before the desk has decided: "+wrong+".")
	}
	for _, rule := range l.Rules {
		s.say(small, rule+". Local rules decide.")
	}
}

// vanCheck is what the driver signs before leaving. The papers and the
// separation of clean and dirty are common practice of oxygen transport; what is
// asked for with this load comes from the programme's dated rules.
func (s *sheet) vanCheck(papers []string) {
	s.heading("Before leaving", 40)
	looks := []string{
		"cylinders tied, valves shut", "clean and dirty apart", "shipping paper within reach",
		"no smoking on board", "phone charged", "emergency guide on board",
	}
	for _, p := range papers {
		if !strings.Contains(strings.Join(looks, "\n"), p) {
			looks = append(looks, p)
		}
	}
	s.ticks(looks, 3)
	s.y += 2
	s.blanks([]blank{{"driver's signature", 90}, {"left at", 35}, {"odometer", 40}}, 11)
}
