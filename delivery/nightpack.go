package delivery

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/delivery/depletion"
	"lungwort/inventory"
)

// Pack is the night pack as it was last printed.
type Pack struct {
	At       time.Time // the facts in it are as of then
	Recorded time.Time
	Persons  []inventory.PersonID // in the order of their numbers, from 1
}

// Number returns the number of a person in the pack; zero: not in it.
func (p Pack) Number(who inventory.PersonID) int { return slices.Index(p.Persons, who) + 1 }

// packAge is how old a night pack may be before it is no night pack any more:
// one is printed every evening. Common practice, no source.
const packAge = 24 * time.Hour

// LastPack returns the pack of the last time it was printed among standing
// facts, by now or, with the zero time, ever; and whether it was.
func LastPack(facts []inventory.Fact, now time.Time) (pack Pack, printed bool) {
	for _, f := range facts {
		if s, is := f.Statement.(*Printed); is && s.Paper == NightPack && (now.IsZero() || !f.Happened.After(now)) && !f.Happened.Before(pack.At) {
			pack, printed = Pack{At: f.Happened, Recorded: f.Recorded, Persons: s.Persons}, true
		}
	}
	return pack, printed
}

// PackAnswer says what somebody with the printed pack in hand has to know: how
// old it is, what stands otherwise by now, and how the night is keyed in later.
func PackAnswer(pack Pack, printed bool, news []News, now time.Time) Answer {
	a := Answer{Verdict: depletion.Unknown, Title: "no night pack was printed", Help: "print it: Papers, Night pack", Do: []string{}, Assumed: []string{}, Facts: []string{}}
	if !printed {
		a.Do = append(a.Do, "Print it now, while there is light: Papers, Night pack, or 'lungwort day'")
		return a
	}
	news = pack.ByNumber(news)
	a.Verdict = depletion.Holds
	a.Title = fmt.Sprintf("night pack of %s, printed %s: nothing stands otherwise", Clock(pack.At, now), Ago(pack.At, now))
	if len(news) > 0 {
		a.Verdict = depletion.Tight
		a.Title = fmt.Sprintf("night pack of %s, printed %s: %s otherwise by now", Clock(pack.At, now), Ago(pack.At, now), homesStand(len(news)))
		a.Do = append(a.Do, "Write on the pack by hand what stands below, or print it anew")
	}
	if now.Sub(pack.At) > packAge {
		a.Verdict = depletion.Unknown
		a.Do = append(a.Do, "Print it anew: it is older than a day")
	}
	a.Help = count(len(pack.Persons), "home") + " in it"
	a.Do = append(a.Do,
		"No printer, no network: work from the pack, and write each call on its last page: time, number, gauge with unit, flow, machine, said and done",
		"Later key it in under Night log, each line with its own time; or 'act night-line --person \"no 12\" --at …'")
	for _, n := range news {
		a.Facts = append(a.Facts, pack.line(n))
	}
	return a
}

// ByNumber returns news of persons in the order of the pack; who is not in it
// stands last.
func (p Pack) ByNumber(news []News) []News {
	news = slices.DeleteFunc(slices.Clone(news), func(n News) bool { return n.Person == "" })
	slices.SortStableFunc(news, func(a, b News) int { return p.place(a.Person) - p.place(b.Person) })
	return news
}

func (p Pack) place(who inventory.PersonID) int {
	if n := p.Number(who); n > 0 {
		return n
	}
	return len(p.Persons) + 1
}

// line says what is otherwise with a person, with the number in the pack.
func (p Pack) line(n News) string {
	words := n.Name + ": " + strings.Join(n.Says, "; ")
	if number := p.Number(n.Person); number > 0 {
		return fmt.Sprintf("no. %d %s", number, words)
	}
	return "not in it: " + words
}

func homesStand(homes int) string {
	if homes == 1 {
		return "1 home stands"
	}
	return fmt.Sprintf("%d homes stand", homes)
}

// PackNumber reads how a person is named by their number in the pack: "no 12",
// "no. 12", "#12".
func PackNumber(text string) (number int, is bool) {
	text = strings.ToLower(strings.TrimSpace(text))
	for _, sign := range []string{"no.", "no", "#"} {
		digits, has := strings.CutPrefix(text, sign)
		if _, err := fmt.Sscanf(strings.TrimSpace(digits), "%d", &number); has && err == nil && fmt.Sprint(number) == strings.TrimSpace(digits) {
			return number, number > 0
		}
	}
	return 0, false
}
