package paperwork

import (
	"fmt"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/labels/paper"
	"lungwort/labels/tag"
	"lungwort/labels/tongue"
)

// Leaflet returns what a household keeps at the kitchen table, in a language.
func (d Desk) Leaflet(page store.PersonPage, w delivery.Watch, t tongue.Tongue) paper.Leaflet {
	l := paper.Leaflet{
		Head: d.head(d.code(tag.PaperLeaflet, string(page.Person.ID))), Tongue: t, Name: page.Person.Name(),
		Phone: d.Programme.Phone, WarmUp: delivery.Spell(d.Programme.WarmUp), FireDistance: d.fireDistance(),
	}
	l.OnCall = "" // the leaflet stays; who is on call tonight does not
	for _, c := range d.Programme.Clinician {
		l.Numbers = append(l.Numbers, paper.Phone{Whose: strings.Join(nonEmpty(c.Name, c.Role), ", "), Number: c.Phone})
	}
	if o := page.Care.Order; o != nil && o.Setting == "" {
		l.Rest, l.Exertion, l.Asleep = figure(o.Rest), figure(o.Exertion), figure(o.Asleep)
	}
	b := d.Programme.Bands.For(page.Care)
	l.Borderline, l.High = figure(b.Borderline), figure(b.Emergency)
	if b.Target > 0 {
		l.Target = fmt.Sprintf("%g", b.Target)
	}
	l.Lasts, l.LastsAt, l.Counted = lasting(w, d.Now)
	for _, item := range append(page.Kit, page.Reserved...) {
		l.Kit = append(l.Kit, leafletThing(item))
	}
	if gone := page.Care.Discharge; gone != nil {
		for _, s := range gone.Supplies {
			l.Kit = append(l.Kit, leafletSupply(s))
		}
	}
	return l
}

// figure is a flow without its unit; empty for none.
func figure(f gas.Flow) string {
	if f <= 0 {
		return ""
	}
	return fmt.Sprintf("%g", float64(f))
}

func nonEmpty(texts ...string) []string {
	var kept []string
	for _, text := range texts {
		if text != "" {
			kept = append(kept, text)
		}
	}
	return kept
}

// lasting says the safe end of what the cylinders last, where anybody knows.
func lasting(w delivery.Watch, now time.Time) (lasts, at string, counted time.Time) {
	if !w.Forecast.Known || w.Flow <= 0 {
		return "", "", time.Time{}
	}
	cover := w.Forecast.CoverLow
	if w.Home.Source == depletion.OnCylinder && !w.Forecast.Low.IsZero() {
		cover = w.Forecast.Low.Sub(now)
	}
	if cover < time.Minute {
		return "", "", time.Time{}
	}
	whole, rest := int(cover.Hours()), int(cover.Minutes())%60
	return fmt.Sprintf("%d h %02d min", whole, rest), figure(w.Flow), now
}

// leafletThing names a thing by its kind, with what tells it from others.
func leafletThing(i inventory.Item) paper.LeafletThing {
	t := paper.LeafletThing{Item: thing(i)}
	switch i.Spec.Kind {
	case inventory.Cylinder:
		t.Key, t.More = "cylinder", string(i.Spec.Size)
	case inventory.Concentrator:
		t.Key = "concentrator"
		if i.Spec.Rated > 0 {
			t.More = i.Spec.Rated.String()
		}
	case inventory.Regulator:
		t.Key = "regulator"
	case inventory.Oximeter:
		t.Key = "oximeter"
	case inventory.Cart:
		t.Key, t.More = "cart", string(i.Spec.Carries)
	case inventory.Vessel:
		t.Key = "vessel"
	default:
		t.More = i.Spec.What()
	}
	return t
}

// leafletSupply names supplies by the words of the kit lists.
func leafletSupply(s inventory.Handful) paper.LeafletThing {
	t := paper.LeafletThing{Item: paper.Item{Quantity: s.Count}}
	for _, known := range []string{"cannula", "tubing", "connector", "key"} {
		if strings.Contains(strings.ToLower(s.Supply), known) {
			t.Key = known
			return t
		}
	}
	t.More = s.Supply
	return t
}

// DoorSign returns the sign at the door of a home: in the household's language,
// and below in English, for whoever comes to a fire.
func (d Desk) DoorSign(who inventory.PersonID, t tongue.Tongue) paper.DoorSign {
	sign := paper.DoorSign{
		Head: d.head(d.code(tag.PaperSign, string(who))), Tongues: []tongue.Tongue{t}, FireDistance: d.fireDistance(),
	}
	sign.OnCall = ""
	if !t.Original() {
		sign.Tongues = append(sign.Tongues, tongue.English())
	}
	return sign
}

// code returns the code of a paper; a paper whose record can't be one is found
// by its name.
func (d Desk) code(kind, id string) string {
	code, err := tag.PaperCode(kind, id)
	if err != nil {
		return ""
	}
	return code
}
