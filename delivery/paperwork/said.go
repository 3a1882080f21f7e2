package paperwork

import (
	"fmt"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/labels/tongue"
)

// spoken is a household's language; none is English.
func spoken(t tongue.Tongue) tongue.Tongue {
	if t.Name == "" {
		return tongue.English()
	}
	return t
}

// identifiersIn are what is asked besides the name, in a household's language.
func identifiersIn(p delivery.Person, t tongue.Tongue) []string {
	t = spoken(t)
	var list []string
	if p.Born != "" {
		day := p.Born
		if born, err := time.Parse(time.DateOnly, p.Born); err == nil {
			day = t.Date(born)
		}
		list = append(list, t.Say("who.born", "day", day))
	}
	if p.Record != "" {
		list = append(list, t.Say("who.record", "number", p.Record))
	}
	return list
}

// placeIn names a place in a household's language.
func placeIn(p inventory.Place, t tongue.Tongue) string {
	switch t = spoken(t); {
	case p.Name() == "":
	case p.Kind() == inventory.AtDepot:
		return t.Say("place.depot", "name", p.Name())
	case p.Kind() == inventory.AtWard:
		return t.Say("place.ward", "name", p.Name())
	}
	return p.InWords()
}

// orderIn is the ordered flow in a household's language.
func orderIn(c delivery.Care, t tongue.Tongue) string {
	if t = spoken(t); t.Original() || c.Order == nil {
		return order(c)
	}
	var parts []string
	add := func(key, word, value string) {
		if value != "" {
			parts = append(parts, t.Say(key, word, value))
		}
	}
	add("flow.setting", "setting", c.Order.Setting)
	add("flow.rest", "flow", figure(c.Order.Rest))
	add("flow.exertion", "flow", figure(c.Order.Exertion))
	add("flow.sleep", "flow", figure(c.Order.Asleep))
	if c.Order.Hours < 24 {
		add("flow.hours", "hours", fmt.Sprintf("%g", c.Order.Hours))
	}
	return strings.Join(append(parts, c.OrderNotes()...), ". ")
}

// next says what comes to the home next, and until when.
func next(page store.PersonPage, t tongue.Tongue) string {
	t = spoken(t)
	for _, task := range page.Care.Tasks {
		if task.Tasked.Task != delivery.Deliver {
			continue
		}
		what := t.Say("next.delivery")
		if len(task.Bring) > 0 {
			spec := inventory.Spec{Kind: task.Bring[0].Kind, Size: task.Bring[0].Size, Rated: task.Bring[0].Rated}
			what = named(inventory.Item{Spec: spec}, t).What
		}
		if task.Until.IsZero() {
			return what
		}
		return t.Say("next.until", "what", what, "when", t.Moment(task.Until))
	}
	return ""
}
