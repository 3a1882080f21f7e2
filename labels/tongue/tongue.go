// Package tongue holds what papers say to a household, and in the depot, language
// by language. English and Spanish come with the program; any other language is a
// text file of the programme's own in the same form: a line "key = text" each,
// "#" before a remark.
package tongue

import (
	"bufio"
	"embed"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
	"sync"
	"time"
	"unicode"

	"lungwort/inventory/refusal"
)

//go:embed en.txt es.txt
var files embed.FS

// Tongue is a language in which papers speak.
type Tongue struct {
	Name     string   // as its speakers call it
	Also     []string // other names and codes it goes by
	Reviewed string   // who approved the translation, and when; empty: nobody yet
	texts    map[string]string
}

// embedded reads a language that comes with the program.
func embedded(name string) Tongue {
	raw, err := files.ReadFile(name)
	if err == nil {
		var t Tongue
		if t, err = read(strings.NewReader(string(raw))); err == nil {
			return t
		}
	}
	panic(fmt.Sprintf("tongue: %s is part of the program: %v", name, err)) // only a broken build comes here
}

// English returns the language that every other one is a translation of.
var English = sync.OnceValue(func() Tongue { return embedded("en.txt") })

// Spanish returns the translation that comes with the program.
var Spanish = sync.OnceValue(func() Tongue { return embedded("es.txt") })

// Template returns the English file, for a translator to work on.
func Template() ([]byte, error) { return files.ReadFile("en.txt") }

// Original reports whether this is the language the others are translated from.
func (t Tongue) Original() bool { return t.Name == English().Name }

// Approved reports whether papers in this language may be given out.
func (t Tongue) Approved() bool { return t.Original() || t.Reviewed != "" }

// Goes reports whether the language goes by a name, in any case.
func (t Tongue) Goes(by string) bool {
	by = strings.TrimSpace(by)
	return strings.EqualFold(t.Name, by) || slices.ContainsFunc(t.Also, func(name string) bool { return strings.EqualFold(name, by) })
}

// Say returns the text of a key, with the words in braces filled in from pairs
// of a word and its value. It never takes a value for a word in braces.
func (t Tongue) Say(key string, pairs ...string) string {
	marked := make([]string, len(pairs))
	for i, word := range pairs {
		marked[i] = word
		if i%2 == 0 {
			marked[i] = "{" + word + "}"
		}
	}
	return strings.NewReplacer(marked...).Replace(t.texts[key])
}

// Moment returns a time as it is said in the language: "Tue 24 Nov 16:20".
func (t Tongue) Moment(at time.Time) string {
	weekdays, months := strings.Fields(t.texts["weekdays"]), strings.Fields(t.texts["months"])
	return fmt.Sprintf("%s %d %s %s", weekdays[at.Weekday()], at.Day(), months[at.Month()-1], at.Format("15:04"))
}

// Day returns a day as it is said in the language: "Tue 24 Nov 2026".
func (t Tongue) Day(at time.Time) string {
	weekdays, months := strings.Fields(t.texts["weekdays"]), strings.Fields(t.texts["months"])
	return fmt.Sprintf("%s %d %s %d", weekdays[at.Weekday()], at.Day(), months[at.Month()-1], at.Year())
}

// Date returns a day without its weekday: "24 Nov 2026".
func (t Tongue) Date(at time.Time) string {
	return fmt.Sprintf("%d %s %d", at.Day(), strings.Fields(t.texts["months"])[at.Month()-1], at.Year())
}

// Month returns a month of a year: "Nov 2026".
func (t Tongue) Month(at time.Time) string {
	return fmt.Sprintf("%s %d", strings.Fields(t.texts["months"])[at.Month()-1], at.Year())
}

// Texts returns every text of the language.
func (t Tongue) Texts() []string {
	all := []string{t.Name, t.Reviewed}
	for _, text := range t.texts {
		all = append(all, text)
	}
	slices.Sort(all)
	return all
}

// Read reads a language from a file of the programme's own. It refuses a file
// that lacks a text, holds one nobody asks for, has other words in braces than
// the English, or is in a script that must be shaped.
func Read(r io.Reader) (Tongue, error) {
	t, err := read(r)
	if err != nil {
		return Tongue{}, err
	}
	return t, t.check(English())
}

const most = 1 << 20 // bytes of a file; a language is under 10 KB

// read reads the lines of a file.
func read(r io.Reader) (Tongue, error) {
	t := Tongue{texts: make(map[string]string)}
	lines := bufio.NewScanner(io.LimitReader(r, most))
	for number := 1; lines.Scan(); number++ {
		line := strings.TrimSpace(strings.TrimPrefix(lines.Text(), "\ufeff"))
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		key, text, ok := strings.Cut(line, "=")
		key, text = strings.TrimSpace(key), strings.TrimSpace(text)
		switch _, twice := t.texts[key]; {
		case !ok || key == "":
			return Tongue{}, bad(fmt.Sprintf("Line %d of the language file has no “=”: %q.", number, line), "Write “key = text”.")
		case twice:
			return Tongue{}, bad(fmt.Sprintf("Line %d of the language file gives %q a second time.", number, key), "Take one of the two out.")
		}
		switch key {
		case "language":
			t.Name = text
		case "reviewed":
			t.Reviewed = text
		case "also":
			for name := range strings.SplitSeq(text, ",") {
				t.Also = append(t.Also, strings.TrimSpace(name))
			}
		default:
			t.texts[key] = text
		}
	}
	if err := lines.Err(); err != nil {
		return Tongue{}, refusal.New(refusal.Invalid, "The language file can't be read as text.", "Save it as plain text in UTF-8.").Because(err)
	}
	return t, nil
}

func bad(says, next string) error { return refusal.New(refusal.Invalid, says, next) }

// check holds a translation against the language it is translated from.
func (t Tongue) check(from Tongue) error {
	if t.Name == "" {
		return bad("The language file does not say which language it is.", "Begin it with “language = ” and the language's own name.")
	}
	var missing, unknown, braces []string
	for key, text := range from.texts {
		switch own := t.texts[key]; {
		case own == "":
			missing = append(missing, key)
		case !slices.Equal(blanks(own), blanks(text)):
			braces = append(braces, key)
		}
	}
	for key := range t.texts {
		if _, known := from.texts[key]; !known {
			unknown = append(unknown, key)
		}
	}
	switch {
	case len(missing) > 0:
		return bad(fmt.Sprintf("The language file for %s lacks %s.", t.Name, list(missing)), "Translate every line of the English file.")
	case len(unknown) > 0:
		return bad(fmt.Sprintf("The language file for %s has %s, which no paper asks for.", t.Name, list(unknown)), "Take it out, or mend the key.")
	case len(braces) > 0:
		return bad(fmt.Sprintf("The language file for %s has other words in braces than the English at %s.", t.Name, list(braces)), "Keep the words in braces as they are in English.")
	case len(strings.Fields(t.texts["weekdays"])) != 7 || len(strings.Fields(t.texts["months"])) != 12:
		return bad(fmt.Sprintf("The language file for %s needs seven weekdays, Sunday first, and twelve months.", t.Name), "Part them by spaces.")
	}
	return t.checkScript()
}

// shaped are the scripts whose letters change with their neighbours or run from
// right to left. Set letter by letter they come out wrong.
var shaped = map[string]*unicode.RangeTable{
	"Arabic": unicode.Arabic, "Hebrew": unicode.Hebrew, "Syriac": unicode.Syriac, "Thaana": unicode.Thaana, "N'Ko": unicode.Nko,
	"Devanagari": unicode.Devanagari, "Bengali": unicode.Bengali, "Gurmukhi": unicode.Gurmukhi, "Gujarati": unicode.Gujarati,
	"Oriya": unicode.Oriya, "Tamil": unicode.Tamil, "Telugu": unicode.Telugu, "Kannada": unicode.Kannada, "Malayalam": unicode.Malayalam,
	"Sinhala": unicode.Sinhala, "Thai": unicode.Thai, "Lao": unicode.Lao, "Burmese": unicode.Myanmar, "Khmer": unicode.Khmer,
	"Tibetan": unicode.Tibetan, "Mongolian": unicode.Mongolian,
}

func (t Tongue) checkScript() error {
	for _, text := range t.Texts() {
		for _, r := range text {
			for script, table := range shaped {
				if unicode.Is(table, r) {
					return bad(fmt.Sprintf("%s is written in %s, whose letters this program can't set as they must be joined.", t.Name, script),
						"Have this leaflet printed by a translator; print ours in a language the household reads, with an interpreter.")
				}
			}
		}
	}
	return nil
}

var inBraces = regexp.MustCompile(`\{[a-z]+\}`)

// blanks returns the words in braces of a text, each once, in order.
func blanks(text string) []string {
	all := inBraces.FindAllString(text, -1)
	slices.Sort(all)
	return slices.Compact(all)
}

// list names keys, the first ones of many.
func list(keys []string) string {
	const most = 6
	slices.Sort(keys)
	if more := len(keys) - most; more > 0 {
		return fmt.Sprintf("%s and %d more", strings.Join(keys[:most], ", "), more)
	}
	return strings.Join(keys, ", ")
}
