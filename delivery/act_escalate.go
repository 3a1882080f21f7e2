package delivery

import (
	"slices"
	"strings"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// Escalate records that somebody was told of what stands open for a person:
// whom, when, and the reply. Without matters it was everything that stood
// open.
type Escalate struct {
	Person inventory.PersonID `act:"person" help:"record number, name or id"`
	Told   string             `act:"told" help:"who was told: the clinician, the emergency number, who makes the welfare check"`
	Reply  string             `act:"reply,optional" help:"what they said"`
	About  []string           `act:"about,optional" help:"the matters told, parted by commas; left out: all that stand open"`
}

// Decide records it.
func (a Escalate) Decide(v View) (Change, error) {
	care, err := v.Care(a.Person)
	if err != nil {
		return Change{}, err
	}
	p, err := v.Programme()
	if err != nil {
		return Change{}, err
	}
	if strings.TrimSpace(a.Told) == "" {
		return Change{}, refusal.New(refusal.Invalid, "Nobody is named who was told.", "Name who was told.")
	}
	about, err := a.matters(care, p, v)
	if err != nil {
		return Change{}, err
	}
	var c Change
	c.person(a.Person, &Escalated{About: about, Told: strings.TrimSpace(a.Told), Reply: strings.TrimSpace(a.Reply)})
	c.Says = "Recorded: " + a.Told + " was told of " + matterList(about) + "."
	return c, nil
}

func (a Escalate) matters(care Care, p Programme, v View) ([]Matter, error) {
	if len(a.About) == 0 {
		var open []Matter
		for _, x := range care.Concerns(p, v.At()) {
			open = append(open, x.Matter)
		}
		if len(open) == 0 {
			return nil, refusal.New(refusal.Ask, "Nothing stands open for this person.", "Say what it was about: "+matterList(Matters())+".")
		}
		return open, nil
	}
	about := make([]Matter, len(a.About))
	for i, text := range a.About {
		about[i] = Matter(strings.TrimSpace(text))
		if !slices.Contains(Matters(), about[i]) {
			return nil, refusal.New(refusal.Invalid, "“"+text+"” is no matter.", "Say one of: "+matterList(Matters())+".")
		}
	}
	return about, nil
}

func matterList(list []Matter) string {
	words := make([]string, len(list))
	for i, m := range list {
		words[i] = string(m)
	}
	return strings.Join(words, ", ")
}
