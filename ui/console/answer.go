package console

import (
	"context"
	"fmt"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// The questions the command answers, with their fields.
type (
	nightQuestion struct {
		Person inventory.PersonID `act:"person,optional" help:"who calls"`
		Near   string             `act:"near,optional" help:"area, town or street of a caller who is not in the book"`
		Size   gas.SizeCode       `act:"size,optional" help:"cylinder size; left out: the sizes in the house"`
		Gauge  gas.Pressure       `act:"gauge" help:"gauge as told, with unit"`
		Flow   gas.Flow           `act:"flow" help:"flow in use"`
	}
	bridgeQuestion = discharge
	callsQuestion  struct{}
	doorQuestion   struct {
		Person inventory.PersonID `act:"person" help:"whose door is locked"`
	}
)

// answer answers one urgent question.
func answer(ctx context.Context, p *Program, args []string) error {
	if len(args) == 0 {
		return misuse{"name a question; 'answer --list' lists them"}
	}
	if args[0] == "questions" {
		return questions(ctx, p, args[1:])
	}
	if args[0] == "--list" {
		p.listForms([]form{
			{name: "bridge", make: func() any { return new(bridgeQuestion) }},
			{name: "calls", make: func() any { return new(callsQuestion) }},
			{name: "door", make: func() any { return new(doorQuestion) }},
			{name: "night", make: func() any { return new(nightQuestion) }},
			{name: "order", make: func() any { return new(orderQuestion) }},
			{name: "reading", make: func() any { return new(delivery.Call) }},
			{name: "replan", make: func() any { return new(struct{}) }},
			{name: "since", make: func() any { return new(sinceQuestion) }}, {name: "slot", make: func() any { return new(slotQuestion) }},
		})
		return nil
	}
	fs := p.flags("answer " + args[0])
	var at, known moment
	fs.String("book", "", "the book")
	asJSON := fs.Bool("json", false, "print JSON")
	fs.Var(&at, "at", "as of this time")
	fs.Var(&known, "known", "answer with what the book knew at this time")
	if text := early(args, "known"); text != "" {
		if err := known.Set(text); err != nil {
			return misuse{err.Error()}
		}
	}
	return p.lookingBack(ctx, early(args, "book"), known, func(desk *store.Desk) error {
		var a delivery.Answer
		var err error
		fill := filler{ctx, desk}
		switch args[0] {
		case "bridge":
			var q bridgeQuestion
			if err := fill.fill(fs, args[1:], &q); err != nil {
				return err
			}
			a, err = askBridge(ctx, desk, &q, at.or(p))
		case "calls":
			if err := fill.fill(fs, args[1:], new(callsQuestion)); err != nil {
				return err
			}
			due, tell, failed := desk.Calls(ctx, at.or(p))
			a, err = delivery.CallsAnswer(due, tell, at.or(p)), failed
		case "door":
			var q doorQuestion
			if err := fill.fill(fs, args[1:], &q); err != nil {
				return err
			}
			a, err = askHome(ctx, desk, q.Person, at.or(p), delivery.DoorAnswer)
		case "reading":
			var q delivery.Call
			if err := fill.fill(fs, args[1:], &q); err != nil {
				return err
			}
			a, err = askHome(ctx, desk, q.Person, at.or(p), func(p delivery.Programme, w delivery.Watch, _ time.Time) delivery.Answer {
				return p.Reading(w.Care, q.Called(p.Bands.For(w.Care)))
			})
		case "night":
			var q nightQuestion
			if err := fill.fill(fs, args[1:], &q); err != nil {
				return err
			}
			a, err = askNight(ctx, desk, q, at.or(p))
		case "order":
			var q orderQuestion
			if err := fill.fill(fs, args[1:], &q); err != nil {
				return err
			}
			a, err = desk.OrderChange(ctx, q.Person, q.ordered(), at.or(p))
		case "replan":
			if err := fill.fill(fs, args[1:], &struct{}{}); err != nil {
				return err
			}
			return p.showReplan(ctx, desk, at.or(p), *asJSON)
		case "since":
			var q sinceQuestion
			if err := fill.fill(fs, args[1:], &q); err != nil {
				return err
			}
			return p.showSince(ctx, desk, q.From, at.or(p), *asJSON)
		case "slot":
			var q slotQuestion
			if err := fill.fill(fs, args[1:], &q); err != nil {
				return err
			}
			a, err = askSlot(ctx, desk, q, at.or(p))
		default:
			return misuse{fmt.Sprintf("there is no question %q; 'answer --list' lists them", args[0])}
		}
		if err != nil {
			return err
		}
		return p.printAnswer(a, *asJSON)
	})
}

func askBridge(ctx context.Context, desk *store.Desk, q *bridgeQuestion, at time.Time) (delivery.Answer, error) {
	deed, err := discharged(ctx, desk, q)
	if err != nil {
		return delivery.Answer{}, err
	}
	var a delivery.BridgeAnswer
	err = desk.Ask(ctx, at, func(v delivery.View) error {
		bridge, err := deed.(delivery.Discharge).Bridge(v)
		if err != nil {
			return err
		}
		p, err := v.Programme()
		if err != nil {
			return err
		}
		a, err = bridge.Answer(p)
		return err
	})
	return a.Answer, err
}

// askHome answers a question about one home.
func askHome(ctx context.Context, desk *store.Desk, who inventory.PersonID, at time.Time, say func(delivery.Programme, delivery.Watch, time.Time) delivery.Answer) (delivery.Answer, error) {
	p, err := desk.Programme(ctx)
	if err != nil {
		return delivery.Answer{}, err
	}
	w, err := desk.WatchOne(ctx, who, at)
	return say(p, w, at), err
}

func askNight(ctx context.Context, desk *store.Desk, q nightQuestion, at time.Time) (delivery.Answer, error) {
	call := delivery.NightCall{At: at, Gauge: q.Gauge, Flow: q.Flow}
	if q.Size != "" {
		call.Sizes = []gas.SizeCode{q.Size}
	}
	return desk.NightCall(ctx, call, q.Person, q.Near)
}

func (p *Program) printAnswer(a delivery.Answer, asJSON bool) error {
	if asJSON {
		return p.print(a)
	}
	fmt.Fprintf(p.Out, "%s: %s\n", a.Verdict, a.Title)
	if a.Low != "" {
		fmt.Fprintf(p.Out, "  plan on  %s (%s to %s)\n", a.Low, a.Low, a.High)
	}
	fmt.Fprintf(p.Out, "  help     %s\n", a.Help)
	for i, line := range a.Do {
		fmt.Fprintf(p.Out, "  %d  %s\n", i+1, line)
	}
	for _, line := range a.Assumed {
		fmt.Fprintf(p.Out, "  assumed  %s\n", line)
	}
	for _, line := range a.Facts {
		fmt.Fprintf(p.Out, "  fact     %s\n", line)
	}
	return nil
}
