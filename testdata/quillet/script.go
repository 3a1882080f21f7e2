package quillet

import (
	"fmt"
	"strconv"
	"strings"
	"time"
)

// Line is one act of the script, in the words of the act command.
type Line struct {
	Number int
	At     time.Time
	Args   []string // the name of the act and its fields
}

// Script returns the acts of the last day. A line begins with the time before
// the present ("-2d3h10m"), then the act as on the command line. A field
// "@-10m" or "@+2h" is that time from the present, "@18:00" the next time the
// clock shows it, "@18:00+5h" five hours later.
func (s Scene) Script() ([]Line, error) {
	text, err := files.ReadFile("day.txt")
	if err != nil {
		return nil, err
	}
	var lines []Line
	for i, line := range strings.Split(string(text), "\n") {
		words, err := split(line)
		if err == nil && len(words) > 1 {
			var act Line
			if act, err = s.line(words); err == nil {
				act.Number = i + 1
				lines = append(lines, act)
			}
		}
		if err != nil {
			return nil, fmt.Errorf("day.txt, line %d: %w", i+1, err)
		}
	}
	return lines, nil
}

func (s Scene) line(words []string) (Line, error) {
	at, err := s.when(words[0])
	if err != nil {
		return Line{}, err
	}
	line := Line{At: at, Args: words[1:]}
	for i, word := range line.Args {
		rest, marked := strings.CutPrefix(word, "@")
		if !marked {
			continue
		}
		t, err := s.when(rest)
		if err != nil {
			return Line{}, err
		}
		line.Args[i] = t.Format(time.RFC3339)
	}
	return line, nil
}

// when returns the time that text says: "-2d3h", "+40m", "18:00", "18:00+5h".
func (s Scene) when(text string) (time.Time, error) {
	shown, later, more := strings.Cut(text, "+")
	clock, err := time.Parse("15:04", shown)
	if err != nil {
		d, err := parseAway(text)
		return s.now.Add(d), err
	}
	t := s.midnight(0).Add(time.Duration(clock.Hour())*time.Hour + time.Duration(clock.Minute())*time.Minute)
	if !t.After(s.now) {
		t = t.AddDate(0, 0, 1)
	}
	if !more {
		return t, nil
	}
	d, err := parseAway(later)
	return t.Add(d), err
}

// parseAway reads a length of time that may begin with a sign and with days.
func parseAway(text string) (time.Duration, error) {
	length := strings.TrimLeft(text, "+-")
	days, rest, has := strings.Cut(length, "d")
	if !has {
		days, rest = "0", length
	}
	n, err := strconv.Atoi(days)
	if err != nil || length == "" {
		return 0, fmt.Errorf("%q is no length of time, as -2d3h10m", text)
	}
	d := time.Duration(n) * 24 * time.Hour
	if rest != "" {
		part, err := time.ParseDuration(rest)
		if err != nil {
			return 0, fmt.Errorf("%q is no length of time, as -2d3h10m", text)
		}
		d += part
	}
	if strings.HasPrefix(text, "-") {
		d = -d
	}
	return d, nil
}

// owned returns what the script keeps to itself, so that the weeks before
// leave it alone: every serial it names outside a recall, and the record
// numbers of those it discharges.
func owned(lines []Line) map[string]bool {
	names := make(map[string]bool)
	for _, line := range lines {
		if line.Args[0] == "recall" {
			continue
		}
		for i, word := range line.Args {
			if line.Args[max(i-1, 0)] == "--person" && line.Args[0] != "discharge" {
				continue
			}
			for part := range strings.SplitSeq(word, ",") {
				names[part] = true
			}
		}
	}
	return names
}

// split parts a line at blanks; double quotes keep words together, # begins a
// remark.
func split(line string) ([]string, error) {
	var words []string
	var word strings.Builder
	quoted, begun := false, false
	end := func() {
		if begun {
			words = append(words, word.String())
		}
		word.Reset()
		begun = false
	}
	for _, r := range line {
		switch {
		case r == '"':
			quoted, begun = !quoted, true
		case quoted:
			word.WriteRune(r)
		case r == '#' && !begun:
			return words, nil
		case r == ' ' || r == '\t':
			end()
		default:
			word.WriteRune(r)
			begun = true
		}
	}
	end()
	if quoted {
		return nil, fmt.Errorf("a quotation mark is missing")
	}
	return words, nil
}
