package console

import (
	"context"
	"fmt"
	"math"
	"text/tabwriter"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
)

type outageLine struct {
	Person    string     `json:"person"`
	Address   string     `json:"address"`
	Phones    []string   `json:"phones"`
	Flow      float64    `json:"flow_lpm"`
	Hours     *float64   `json:"cover_hours"` // planning, from the begin of the cut on
	Ends      *time.Time `json:"ends"`
	SavedEnds *time.Time `json:"ends_turned_down"`
	Verdict   string     `json:"verdict"`
	Size      string     `json:"size"`
	Need      int        `json:"cylinders_needed"`
	Lack      int        `json:"cylinders_lacking"`
	Relocate  bool       `json:"relocate"`
	NoBackup  bool       `json:"no_backup"`
	Found     string     `json:"found"`
	Tried     int        `json:"tried"`
	NextCall  *time.Time `json:"next_call"`
	Next      string     `json:"next"`
}

type outageSize struct {
	Size  string `json:"size"`
	Need  int    `json:"needed"`
	Ready int    `json:"ready"`
	Short int    `json:"short"`
}

type outageReport struct {
	Answer      delivery.Answer `json:"answer"`
	From        time.Time       `json:"from"`
	Hours       float64         `json:"hours"`
	Homes       []outageLine    `json:"homes"`
	Stock       []outageSize    `json:"stock"`
	Relocate    []string        `json:"relocate"`
	Unreachable []string        `json:"unreachable"`
}

// outage lists what a power cut does to the homes it touches.
func outage(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("outage")
	file := fs.String("book", "", "the book")
	hours := fs.Float64("hours", 0, "power is out for so many hours")
	area := fs.String("area", "", "area, town, power line or street; left out: everywhere")
	asJSON := fs.Bool("json", false, "print JSON")
	var at, known moment
	fs.Var(&at, "at", "as of this time")
	fs.Var(&known, "known", "answer with what the book knew at this time")
	if err := parse(fs, args, false); err != nil {
		return err
	}
	if !(*hours > 0 && *hours <= 24*60) {
		return misuse{"--hours is missing: how long power is out, as 8"}
	}
	return p.lookingBack(ctx, *file, known, func(desk *store.Desk) error {
		now, err := at.on(ctx, p, desk)
		if err != nil {
			return err
		}
		cut, err := cutAt(ctx, desk, *area, now)
		if err != nil {
			return err
		}
		plan, err := desk.Outage(ctx, cut, time.Duration(*hours*float64(time.Hour)), now)
		if err != nil {
			return err
		}
		settings, err := desk.Programme(ctx)
		if err != nil {
			return err
		}
		if *asJSON {
			return p.print(reportOf(plan, settings))
		}
		return p.printOutage(plan, settings)
	})
}

// cutAt returns a cut that begins now, in the part of the programme that a
// name names; the calls already made about a recorded cut there count.
func cutAt(ctx context.Context, desk *store.Desk, area string, now time.Time) (delivery.PowerCut, error) {
	cut := delivery.PowerCut{Area: area, From: now}
	if area == "" {
		cut.By = delivery.Everywhere
	}
	err := desk.Ask(ctx, now, func(v delivery.View) error {
		_, err := delivery.Outage{By: cut.By, Area: area}.Decide(v)
		return err
	})
	if err != nil {
		return cut, err
	}
	cuts, err := desk.PowerCuts(ctx, now)
	for _, c := range cuts {
		if c.Area == area && !c.From.After(now) {
			cut.ID, cut.By, cut.From = c.ID, c.By, c.From
		}
	}
	return cut, err
}

func reportOf(o delivery.OutagePlan, p delivery.Programme) outageReport {
	r := outageReport{
		Answer: o.Answer(p), From: o.Begins(), Hours: o.Hours.Hours(),
		Homes: []outageLine{}, Stock: []outageSize{}, Relocate: []string{}, Unreachable: []string{},
	}
	for _, h := range o.Homes {
		r.Homes = append(r.Homes, outageLineOf(o, p, h))
		if h.Relocate {
			r.Relocate = append(r.Relocate, h.Person.Name())
		}
		if h.Unreachable() {
			r.Unreachable = append(r.Unreachable, h.Person.Name())
		}
	}
	for _, s := range o.Sizes {
		r.Stock = append(r.Stock, outageSize{string(s.Size), s.Need, s.Ready, s.Short()})
	}
	return r
}

func outageLineOf(o delivery.OutagePlan, p delivery.Programme, h delivery.OutageHome) outageLine {
	when := func(t time.Time) *time.Time {
		if t.IsZero() {
			return nil
		}
		t = t.In(o.At.Location()).Truncate(time.Second)
		return &t
	}
	line := outageLine{
		Person: h.Person.Name(), Address: h.Address.Where(), Phones: []string{}, Flow: float64(h.Flow),
		Ends: when(h.Ends), SavedEnds: when(h.SavedEnds), Verdict: string(h.State), Size: string(h.Size),
		Need: h.Need, Lack: h.Lack, Relocate: h.Relocate, NoBackup: h.NoBackup,
		Found: string(h.Contact.Found), Tried: h.Contact.Tried, NextCall: when(h.NextCall),
	}
	for _, ph := range h.Person.Phones {
		line.Phones = append(line.Phones, ph.Number)
	}
	if h.Known {
		line.Hours = new(math.Round(h.Cover.Hours()*100) / 100)
	}
	line.Next, _ = o.Next(p, h)
	return line
}

func (p *Program) printOutage(o delivery.OutagePlan, settings delivery.Programme) error {
	if err := p.printAnswer(o.Answer(settings), false); err != nil {
		return err
	}
	t := tabwriter.NewWriter(p.Out, 0, 0, 2, ' ', 0)
	fmt.Fprintf(t, "call\tverdict\tperson\taddress\tcover\tends\tbring\tnext\n")
	for _, h := range o.Homes {
		cover, bring := "not known", ""
		if h.Known {
			cover = delivery.Spell(h.Cover)
		}
		if h.Need > 0 && !h.Relocate {
			bring = fmt.Sprintf("%d %s", h.Need, h.Size)
		}
		next, _ := o.Next(settings, h)
		if saved := h.Saved(o.At); saved != "" {
			next += " (" + saved + ")"
		}
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\n", delivery.Clock(h.NextCall, o.At), h.State,
			h.Person.Name(), h.Address.Where(), cover, delivery.Clock(h.Ends, o.At), bring, next)
	}
	return t.Flush()
}
