package console

import (
	"context"
	"fmt"
	"slices"
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
		Flow   gas.Flow           `act:"flow,optional" help:"flow in use; of a pulse device its setting instead"`
		// Setting is what stands on the dial of a pulse device.
		Setting string          `act:"setting,optional" help:"of a pulse device; never a flow"`
		Bolus   gas.Millilitres `act:"bolus,optional" help:"of the pulse device at this setting, as 16.5mL; left out: as ordered"`
		Breaths float64         `act:"breaths,optional" help:"a minute, with a bolus"`
		Worse   bool            `act:"worse,optional" help:"breathless, blue, confused: it overrides the numbers"`
	}
	bridgeQuestion      = discharge
	callsQuestion       struct{}
	electricityQuestion struct {
		Person inventory.PersonID `act:"person" help:"whose bill"`
		Price  float64            `act:"price,optional" help:"of a kWh, as their bill says"`
	}
	heatQuestion struct {
		Degrees gas.Celsius `act:"degrees" help:"how hot it gets, as 38C"`
	}
	loadQuestion struct {
		Run inventory.RunID `act:"run" help:"id of the run"`
	}
	doorQuestion struct {
		Person inventory.PersonID `act:"person" help:"whose door is locked"`
	}
)

// question is one question as a command line can ask it.
type question struct {
	name   string
	make   func() any // a pointer to a struct with act tags
	answer func(ctx context.Context, p *Program, desk *store.Desk, q any, at time.Time, asJSON bool) error
}

// asked is a question whose answer is printed as every answer is.
func asked[Q any](name string, ask func(context.Context, *store.Desk, *Q, time.Time) (delivery.Answer, error)) question {
	return question{name, func() any { return new(Q) }, func(ctx context.Context, p *Program, desk *store.Desk, q any, at time.Time, asJSON bool) error {
		a, err := ask(ctx, desk, q.(*Q), at)
		if err != nil {
			return err
		}
		return p.printAnswer(a, asJSON)
	}}
}

// questionList lists the questions by name.
func questionList() []question {
	return []question{
		asked("alarm", func(ctx context.Context, desk *store.Desk, q *delivery.Alarm, at time.Time) (delivery.Answer, error) {
			return desk.Alarm(ctx, *q, at)
		}),
		asked("bridge", askBridge),
		asked("calls", askCalls),
		asked("door", func(ctx context.Context, desk *store.Desk, q *doorQuestion, at time.Time) (delivery.Answer, error) {
			board, err := desk.Board(ctx, at)
			if err != nil {
				return delivery.Answer{}, err
			}
			return askHome(ctx, desk, q.Person, at, func(p delivery.Programme, w delivery.Watch, at time.Time) delivery.Answer {
				return delivery.DoorAnswer(p, w, board, at)
			})
		}),
		asked("electricity", func(ctx context.Context, desk *store.Desk, q *electricityQuestion, at time.Time) (delivery.Answer, error) {
			return askHome(ctx, desk, q.Person, at, func(p delivery.Programme, w delivery.Watch, at time.Time) delivery.Answer {
				return w.Electricity(p, q.Price, at)
			})
		}),
		asked("heat", askHeat),
		asked("load", func(ctx context.Context, desk *store.Desk, q *loadQuestion, _ time.Time) (delivery.Answer, error) {
			l, err := desk.Loading(ctx, q.Run)
			return l.Answer(), err
		}),
		asked("night", askNight),
		asked("pack", func(ctx context.Context, desk *store.Desk, _ *struct{}, at time.Time) (delivery.Answer, error) {
			pack, news, printed, err := desk.PackNews(ctx, at)
			return delivery.PackAnswer(pack, printed, news, at), err
		}),
		asked("order", func(ctx context.Context, desk *store.Desk, q *orderQuestion, at time.Time) (delivery.Answer, error) {
			return desk.OrderChange(ctx, q.Person, q.ordered(), at)
		}),
		asked("reading", askReading),
		{"replan", func() any { return new(struct{}) }, func(ctx context.Context, p *Program, desk *store.Desk, _ any, at time.Time, asJSON bool) error {
			return p.showReplan(ctx, desk, at, asJSON)
		}},
		{"since", func() any { return new(sinceQuestion) }, func(ctx context.Context, p *Program, desk *store.Desk, q any, at time.Time, asJSON bool) error {
			return p.showSince(ctx, desk, q.(*sinceQuestion).From, at, asJSON)
		}},
		asked("slot", askSlot),
		asked("fill", askFill),
		asked("stock", askStock),
	}
}

// answer answers one urgent question.
func answer(ctx context.Context, p *Program, args []string) error {
	if len(args) == 0 {
		return misuse{"name a question; 'answer --list' lists them"}
	}
	all := questionList()
	switch args[0] {
	case "questions":
		return questions(ctx, p, args[1:])
	case "--list":
		forms := make([]form, len(all))
		for i, q := range all {
			forms[i] = form{name: q.name, make: q.make}
		}
		p.listForms(forms)
		return nil
	}
	i := slices.IndexFunc(all, func(q question) bool { return q.name == args[0] })
	if i < 0 {
		return misuse{fmt.Sprintf("there is no question %q; 'answer --list' lists them", args[0])}
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
	p.signIn.early(args)
	return p.lookingBack(ctx, early(args, "book"), known, func(desk *store.Desk) error {
		q := all[i].make()
		if err := (filler{ctx, desk}).fill(fs, args[1:], q); err != nil {
			return err
		}
		now, err := at.on(ctx, p, desk)
		if err != nil {
			return err
		}
		return all[i].answer(ctx, p, desk, q, now, *asJSON)
	})
}

func askCalls(ctx context.Context, desk *store.Desk, _ *callsQuestion, at time.Time) (delivery.Answer, error) {
	due, tell, err := desk.Calls(ctx, at)
	return delivery.CallsAnswer(due, tell, at), err
}

func askHeat(ctx context.Context, desk *store.Desk, q *heatQuestion, at time.Time) (delivery.Answer, error) {
	p, err := desk.Programme(ctx)
	if err != nil {
		return delivery.Answer{}, err
	}
	rows, err := desk.Watch(ctx, at)
	return p.HeatAnswer(rows, q.Degrees), err
}

func askReading(ctx context.Context, desk *store.Desk, q *delivery.Call, at time.Time) (delivery.Answer, error) {
	return askHome(ctx, desk, q.Person, at, func(p delivery.Programme, w delivery.Watch, _ time.Time) delivery.Answer {
		return p.Reading(w.Care, q.Called(p.Bands.For(w.Care)))
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
		if a, err = bridge.Answer(p); err != nil {
			return err
		}
		forward, err := deed.(delivery.Discharge).Forward(v, bridge, a)
		if forward != "" {
			a.Do = append(a.Do, forward)
		}
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

func askNight(ctx context.Context, desk *store.Desk, q *nightQuestion, at time.Time) (delivery.Answer, error) {
	if q.Flow == 0 && q.Setting == "" && q.Bolus == 0 {
		return delivery.Answer{}, misuse{"--flow is missing; of a pulse device give --setting"}
	}
	call := delivery.NightCall{At: at, Gauge: q.Gauge, Flow: q.Flow, Worse: q.Worse, Setting: q.Setting,
		Pulse: gas.Pulse{Bolus: q.Bolus, BreathsPerMinute: q.Breaths}}
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
