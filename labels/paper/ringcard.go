package paper

import (
	"fmt"
	"strings"
)

// RingCard is a page to answer a call from: minutes by gauge and flow for each
// size in the homes, what a machine that beeps may mean, the check of the line.
type RingCard struct {
	Reserve string // "200 psi"
	Minutes []GaugeTable
	Causes  []AlarmCause
	Line    []string
	Bands   string
}

// GaugeTable is how many minutes one size lasts, by gauge and by flow.
type GaugeTable struct {
	Size    string // "E"
	Gauges  []string
	Flows   []string
	Minutes [][]int // by gauge, then by flow
}

// AlarmCause is what one answer to a question points to, and what to do.
type AlarmCause struct {
	Asks, Told, Is, Do string
}

// ringCard is a page of its own.
func (s *sheet) ringCard(c RingCard) {
	s.newPage()
	s.heading("Somebody rings: gas is ending", 40)
	s.say(body, "Breathless, blue, confused: emergency number first, whatever the gauge shows. Then gauge with its unit, flow as it stands now, letter on the cylinder.")
	s.say(small, fmt.Sprintf("Hours and minutes to plan on, valve open now, %s kept; the smaller of the textbook rule and real gas. Between two gauges, two flows or two sizes "+
		"the smaller number counts. A pulse device's setting is no flow. Flow is the clinician's to change, never ours.", c.Reserve))
	s.y += 1
	s.gaugeTables(c.Minutes)
	s.heading("The machine beeps, or they are short of breath", 40)
	s.causes(c.Causes)
	s.y += 2
	s.heading("The line, nose to machine", 20)
	s.say(body, strings.Join(numberedInLine(c.Line), "   "))
	s.y += 1
	s.say(body, "Check-in bands: "+c.Bands+". A reading without its flow is incomplete; feeling worse overrides numbers; a clinician decides.")
}

// gaugeTables puts the tables side by side, as many as the page is wide.
func (s *sheet) gaugeTables(tables []GaugeTable) {
	const wide, gap MM = 61.5, 3
	across := max(int((s.width()+gap)/(wide+gap)), 1)
	for len(tables) > 0 {
		row := tables[:min(across, len(tables))]
		tables = tables[len(row):]
		lines := 0
		for _, t := range row {
			lines = max(lines, len(t.Gauges))
		}
		tall := heading.leading() + MM(lines+1)*rowFace.leading() + 3
		s.need(tall)
		for i, t := range row {
			s.gaugeTable(s.left()+MM(i)*(wide+gap), wide, t)
		}
		s.y += tall
	}
}

// gaugeTable draws one table; the flows are its columns.
func (s *sheet) gaugeTable(x, wide MM, t GaugeTable) {
	const gauges MM = 18
	each := (wide - gauges) / MM(max(len(t.Flows), 1))
	y := s.y
	s.words(x, y, heading, t.Size)
	y += heading.leading()
	s.ground(x, y, wide, rowFace.leading(), light)
	s.words(x+0.5, y, caption, "L/min")
	for i, flow := range t.Flows {
		s.fitted(x+gauges+MM(i)*each, y, caption, each, flow)
	}
	for r, gauge := range t.Gauges {
		y += rowFace.leading()
		s.rule(x, y, x+wide, y, tableRule, light)
		s.fitted(x+0.5, y, caption, gauges-0.5, gauge)
		for i := range t.Flows {
			s.fitted(x+gauges+MM(i)*each, y, rowFace, each, hoursMinutes(t.Minutes[r][i]))
		}
	}
}

// hoursMinutes writes minutes as short as a clock: "0:21", "2:05", "14 h".
func hoursMinutes(minutes int) string {
	if minutes >= 10*60 {
		return fmt.Sprintf("%d h", minutes/60)
	}
	return fmt.Sprintf("%d:%02d", minutes/60, minutes%60)
}

func (s *sheet) causes(causes []AlarmCause) {
	columns := []column{{"ask", 56}, {"told", 23}, {"it is", 62}, {"do", s.width() - 141}}
	var rows [][]cell
	asked := ""
	for _, c := range causes {
		asks := c.Asks
		if asks == asked {
			asks = ""
		}
		asked = c.Asks
		rows = append(rows, []cell{said{small, asks}, said{caption, c.Told}, said{small, c.Is}, said{small, c.Do}})
	}
	s.table(columns, rows)
}

func numberedInLine(steps []string) []string {
	all := make([]string, len(steps))
	for i, step := range steps {
		all[i] = fmt.Sprintf("%d  %s.", i+1, step)
	}
	return all
}
