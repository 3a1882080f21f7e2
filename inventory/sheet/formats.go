package sheet

import (
	"math"
	"strconv"
	"strings"
)

// format is what a cell's style says about a number in it.
type format struct {
	shows    numberKind
	code     string
	coloured bool
	struck   bool
}

type numberKind int

const (
	asGeneral numberKind = iota
	asDay
	asMoment  // a day with a time
	asClock   // a time of day without a day
	asPower   // one digit and decimals times a power of ten, as 9.01E+09
	asPattern // any other pattern
)

// formats are a workbook's cell styles by number, and the renderer for the
// patterns that are not dates.
type formats struct {
	scratch
	byStyle []format
	shown   map[patterned]string
}

type patterned struct {
	code, value string
}

// shownKept bounds the memory of rendered numbers.
const shownKept = 10_000

type xmlStyles struct {
	Patterns []struct {
		ID   int    `xml:"numFmtId,attr"`
		Code string `xml:"formatCode,attr"`
	} `xml:"numFmts>numFmt"`
	Fonts []struct {
		Strike *struct {
			Val string `xml:"val,attr"`
		} `xml:"strike"`
	} `xml:"fonts>font"`
	Fills []struct {
		Pattern struct {
			Type string `xml:"patternType,attr"`
		} `xml:"patternFill"`
	} `xml:"fills>fill"`
	Cells []struct {
		Pattern int `xml:"numFmtId,attr"`
		Font    int `xml:"fontId,attr"`
		Fill    int `xml:"fillId,attr"`
	} `xml:"cellXfs>xf"`
}

func readFormats(p *parts) (*formats, error) {
	var styles xmlStyles
	if err := p.decode("xl/styles.xml", &styles); err != nil {
		return nil, err
	}
	codes := make(map[int]string, len(styles.Patterns))
	for _, pattern := range styles.Patterns {
		codes[pattern.ID] = pattern.Code
	}
	f := &formats{shown: map[patterned]string{}}
	for _, cell := range styles.Cells {
		code, known := codes[cell.Pattern]
		if !known {
			code = builtInPattern(cell.Pattern)
		}
		style := format{code: code, shows: kindOfPattern(code)}
		if i := cell.Font; i > 0 && i < len(styles.Fonts) && styles.Fonts[i].Strike != nil {
			style.struck = styles.Fonts[i].Strike.Val != "0" && styles.Fonts[i].Strike.Val != "false"
		}
		// The first two fills are the format's own "none" and "grey".
		if i := cell.Fill; i > 1 && i < len(styles.Fills) {
			style.coloured = styles.Fills[i].Pattern.Type != "" && styles.Fills[i].Pattern.Type != "none"
		}
		f.byStyle = append(f.byStyle, style)
	}
	return f, nil
}

func (f *formats) of(style int) format {
	if style < 0 || style >= len(f.byStyle) {
		return format{}
	}
	return f.byStyle[style]
}

// builtInPattern returns the pattern of the format's predefined numbers
// (ECMA-376, part 1, 18.8.30), those that East Asian editions use included.
func builtInPattern(id int) string {
	patterns := map[int]string{
		1: "0", 2: "0.00", 3: "#,##0", 4: "#,##0.00", 9: "0%", 10: "0.00%", 11: "0.00E+00", 12: "# ?/?", 13: "# ??/??",
		14: "m/d/yy", 15: "d-mmm-yy", 16: "d-mmm", 17: "mmm-yy", 18: "h:mm AM/PM", 19: "h:mm:ss AM/PM", 20: "h:mm",
		21: "h:mm:ss", 22: "m/d/yy h:mm", 37: "#,##0;(#,##0)", 38: "#,##0;(#,##0)", 39: "#,##0.00;(#,##0.00)",
		40: "#,##0.00;(#,##0.00)", 45: "mm:ss", 46: "[h]:mm:ss", 47: "mm:ss.0", 48: "##0.0E+0", 49: "@",
	}
	switch {
	case id >= 27 && id <= 31, id == 36, id >= 50 && id <= 54, id == 57, id == 58:
		return "yyyy-m-d"
	case id >= 32 && id <= 35, id == 55, id == 56:
		return "h:mm"
	}
	return patterns[id]
}

// kindOfPattern looks for the letters of days and clocks outside quoted text,
// in the pattern's first section.
func kindOfPattern(code string) numberKind {
	letters, elapsed := patternLetters(code)
	has := func(set string) bool { return strings.ContainsAny(letters, set) }
	switch {
	case letters == "" || strings.HasPrefix(letters, "general"):
		if code == "" || letters != "" {
			return asGeneral
		}
		return asPattern
	case elapsed:
		return asPattern
	case letters == "e":
		return asPower
	case has("yd") && has("hs"):
		return asMoment
	case has("yd"), has("m") && !has("hs"):
		return asDay
	case has("hs"):
		return asClock
	}
	return asPattern
}

// patternLetters returns the lower-case letters that carry meaning, and
// whether one of them counts elapsed time, as [h] does.
func patternLetters(code string) (letters string, elapsed bool) {
	var b strings.Builder
	for i := 0; i < len(code); i++ {
		switch c := code[i] | 0x20; {
		case code[i] == ';':
			return b.String(), elapsed
		case code[i] == '\\' || code[i] == '_' || code[i] == '*':
			i++
		case code[i] == '"' || code[i] == '[':
			closing := map[byte]string{'"': `"`, '[': "]"}[code[i]]
			inside, _, _ := strings.Cut(code[i+1:], closing)
			if closing == "]" && inside != "" && strings.Trim(strings.ToLower(inside), inside[:1]) == "" && strings.ContainsAny(inside[:1], "hmsHMS") {
				elapsed = true
			}
			i += len(inside) + 1
		case c >= 'a' && c <= 'z':
			b.WriteByte(c)
		}
	}
	return b.String(), elapsed
}

// number returns the cell of a stored number in the given style.
func (f *formats) number(value string, style int, date1904 bool) Cell {
	v, err := strconv.ParseFloat(value, 64)
	if err != nil {
		return Cell{Text: clean(value), Raw: value}
	}
	look := f.of(style)
	switch look.shows {
	case asDay, asMoment:
		return Cell{Text: shownDay(v, value, look.shows == asMoment, date1904), Raw: value, Serial: true}
	case asClock:
		if v >= 0 && v < 1 {
			return Cell{Text: shownClock(v), Raw: value}
		}
		return Cell{Text: shownDay(v, value, true, date1904), Raw: value, Serial: true}
	case asPower:
		return Cell{Text: inFull(f.render(look.code, value), v), Raw: value}
	case asPattern:
		return Cell{Text: f.render(look.code, value), Raw: value}
	}
	return Cell{Text: shownGeneral(v), Raw: value}
}

// inFull writes a number that is shown short with all its digits, when it has
// more than are shown: 9010000417 shown as 9.01E+09. One that has no more may
// have been a serial of which the rest is gone (a spreadsheet reads 9.01E+09 as
// 9010000000), and stays as it is shown.
func inFull(shown string, v float64) string {
	const worthShortening = 1000
	short, err := strconv.ParseFloat(strings.Replace(shown, ",", ".", 1), 64)
	if err == nil && short == v && v == math.Trunc(v) && math.Abs(v) >= worthShortening {
		return shown
	}
	return shownGeneral(v)
}

// shownGeneral writes a number with the fifteen digits a spreadsheet keeps.
func shownGeneral(v float64) string {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 15, 64), 64)
	if err != nil {
		rounded = v
	}
	if rounded != 0 && (rounded >= 1e21 || rounded <= -1e21 || rounded < 1e-9 && rounded > -1e-9) {
		return strconv.FormatFloat(rounded, 'E', -1, 64)
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}

// render shows a number by its pattern, as 00000 shows a code's zeros. The
// spreadsheet library does it, on a scratch workbook.
func (f *formats) render(code, value string) string {
	key := patterned{code, value}
	if text, known := f.shown[key]; known {
		return text
	}
	text, err := f.rendered(code, value)
	if err != nil {
		text = value
	}
	text = clean(text)
	if len(f.shown) < shownKept {
		f.shown[key] = text
	}
	return text
}
