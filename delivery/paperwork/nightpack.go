package paperwork

import (
	"fmt"
	"sort"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/labels/paper"
	"lungwort/labels/tag"
)

// nightHorizon is how far the night pack looks ahead: to the next evening.
const nightHorizon = 24 * time.Hour

// NightPack returns the printed state of every household for the person on
// call. The rows come most urgent first; ready is what could be sent.
func (d Desk) NightPack(rows []delivery.Watch, ready []inventory.Item) paper.NightPack {
	code, err := tag.PaperCode(tag.PaperNight, d.Now.Format("20060102"))
	if err != nil {
		code = "" // the pack is found by its date as well
	}
	pack := paper.NightPack{
		Head: d.head(code), Horizon: nightHorizon,
		Duty: d.duty(), Stock: d.stock(ready), Ring: d.ring(d.Programme.Ring(rows)),
	}
	for _, w := range rows {
		pack.Households = append(pack.Households, d.household(w))
	}
	return pack
}

// ring returns the page a call is answered from.
func (d Desk) ring(card delivery.RingCard) paper.RingCard {
	page := paper.RingCard{Reserve: d.Programme.Reserve.String(), Line: card.Line, Bands: card.Bands}
	for _, t := range card.Minutes {
		table := paper.GaugeTable{Size: letter(t.Size.Code), Minutes: t.Minutes}
		for _, gauge := range t.Gauges {
			table.Gauges = append(table.Gauges, gauge.String())
		}
		for _, flow := range t.Flows {
			table.Flows = append(table.Flows, fmt.Sprintf("%g", float64(flow)))
		}
		page.Minutes = append(page.Minutes, table)
	}
	for _, c := range card.Causes {
		page.Causes = append(page.Causes, paper.AlarmCause(c))
	}
	return page
}

func (d Desk) duty() []paper.Duty {
	var list []paper.Duty
	for _, t := range d.Programme.OnCall {
		if t.Until.After(d.Now) && t.From.Before(d.Now.Add(nightHorizon)) {
			list = append(list, paper.Duty{What: t.Role, Who: t.Name, Phone: t.Phone, From: t.From, To: t.Until})
		}
	}
	for _, c := range d.Programme.Clinician {
		list = append(list, paper.Duty{What: c.Role, Who: c.Name, Phone: c.Phone})
	}
	return list
}

// stock counts what is ready by place.
func (d Desk) stock(ready []inventory.Item) []paper.SpareStock {
	counts := make(map[inventory.Place]map[string]int)
	for _, i := range ready {
		what := ""
		switch i.Spec.Kind {
		case inventory.Cylinder:
			what = letter(i.Spec.Size) + " full"
		case inventory.Concentrator:
			what = "concentrators"
		default:
			continue
		}
		if counts[i.Place] == nil {
			counts[i.Place] = make(map[string]int)
		}
		counts[i.Place][what]++
	}
	var list []paper.SpareStock
	for place, of := range counts {
		s := paper.SpareStock{Where: place.Name(), What: tally(of)}
		if site, ok := d.Programme.Site(place.Name()); ok {
			s.Where, s.Phone = site.Title, site.Phone
		}
		list = append(list, s)
	}
	sort.Slice(list, func(i, j int) bool { return list[i].Where < list[j].Where })
	return list
}

func tally(of map[string]int) string {
	parts := make([]string, 0, len(of))
	for what, n := range of {
		parts = append(parts, fmt.Sprintf("%d %s", n, what))
	}
	sort.Strings(parts)
	return strings.Join(parts, ", ")
}

func (d Desk) household(w delivery.Watch) paper.Household {
	h := paper.Household{
		Verdict: string(w.Verdict), Name: w.Person.Name(), Street: w.Address.Where(), Phones: phones(w.Person),
		Flow: order(w.Care), There: there(w), Reading: w.Gas,
		Cover: w.Forecast.CoverLow, CoverFar: w.Forecast.CoverHigh, NoCover: !w.Forecast.Known,
		ActBy: w.ActBy(), NextVisit: w.Visit, Do: w.Next, Nearest: d.nearest(w.Address.Point),
		Ribbon: Ribbon(w, d.Now, nightHorizon),
	}
	if w.Run != "" {
		h.VisitBy = "run " + string(w.Run)
	}
	for _, k := range w.Care.Kit {
		if k.Gauge != nil {
			h.ReadAt = k.Gauge.At
			break
		}
	}
	if w.Home.Source == depletion.OnCylinder && !w.Forecast.Low.IsZero() {
		h.Cover = max(0, w.Forecast.Low.Sub(d.Now))
		h.CoverFar = max(0, w.Forecast.High.Sub(d.Now))
	}
	return h
}

// there says what the person breathes from and which cylinders stand in the
// house.
func there(w delivery.Watch) string {
	counts := make(map[string]int)
	for _, k := range w.Care.Kit {
		if k.Spec.Kind == inventory.Cylinder {
			counts[letter(k.Spec.Size)]++
		}
	}
	from := map[delivery.Breathes]string{
		delivery.FromConcentrator: "concentrator runs",
		delivery.FromCylinder:     "on the cylinder",
		delivery.FromNothing:      "no oxygen of ours",
	}[w.Care.Breathes]
	if len(counts) == 0 {
		return from
	}
	return from + ", " + tally(counts)
}

// nearest says which depot is nearest and how long the ride is.
func (d Desk) nearest(to delivery.Point) string {
	var best delivery.Leg
	title := ""
	for _, site := range d.Programme.Depots {
		leg := d.Programme.RideAt(site.Point, to, d.Now)
		if leg.Known && (title == "" || leg.Takes < best.Takes) {
			best, title = leg, site.Title
		}
	}
	if title == "" {
		return ""
	}
	return fmt.Sprintf("%s, %s", title, delivery.Spell(best.Takes))
}
