package paperwork

import (
	"fmt"
	"time"

	"lungwort/delivery"
	"lungwort/labels/paper"
	"lungwort/labels/scene"
	"lungwort/labels/tag"
)

// OutageRibbon returns the picture of a home in a power cut: its gas from now
// on, the notch where it ends.
func OutageRibbon(o delivery.OutagePlan, h delivery.OutageHome) scene.RibbonData {
	span := o.Begins().Sub(o.At) + o.Hours
	r := scene.RibbonData{
		Now: o.At, Horizon: span, Unknown: !h.Known,
		Outages: []scene.Span{{From: o.Cut.From, To: o.Begins().Add(o.Hours)}},
	}
	if h.Known {
		after := func(cover time.Duration) time.Time { return later(h.Ends, o.Begins().Add(cover)) }
		r.Low, r.Mid = h.Ends, after(h.Forecast.CoverMid)
		r.High = later(r.Mid, after(h.Forecast.CoverHigh))
		if h.Need > 0 {
			r.ActBy = h.Ends
		}
	}
	if !h.Visit.IsZero() {
		r.Visits = []time.Time{h.Visit}
	}
	return r
}

// OutageList returns the printed list of a power cut, in the order of the
// calls.
func (d Desk) OutageList(o delivery.OutagePlan) paper.OutageList {
	a := o.Answer(d.Programme)
	list := paper.OutageList{
		Head: d.head(d.code(tag.PaperOutage, o.Begins().Format("20060102"))), Where: o.Cut.Zone().InWords(), From: o.Begins(), Until: o.Begins().Add(o.Hours),
		Verdict: string(a.Verdict), Says: a.Title, Do: a.Do, Stock: a.Help,
	}
	for _, h := range o.Homes {
		next, _ := o.Next(d.Programme, h)
		home := paper.OutageHome{
			Verdict: string(h.State), Name: h.Person.Name(), Street: h.Address.Where(), Phones: phones(h.Person),
			Gas: fmt.Sprintf("%s, counted at %s", h.Gas, h.Flow), Cover: h.Cover, NoCover: !h.Known, Ends: h.Ends,
			Call: h.NextCall, Next: next, Ribbon: OutageRibbon(o, h),
		}
		if saved := h.Saved(o.At); saved != "" {
			home.Next = saved + "; " + next
		}
		list.Homes = append(list.Homes, home)
	}
	return list
}
