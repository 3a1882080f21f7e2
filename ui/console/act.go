package console

import (
	"context"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
)

// form is an act as a command line can give it.
type form struct {
	name string
	make func() any                                                    // a pointer to a struct with act tags
	act  func(context.Context, *store.Desk, any) (delivery.Act, error) // of the filled struct
}

// plain is the form of an act whose own fields carry the tags.
func plain[T delivery.Act](name string) form {
	return form{name, func() any { return new(T) }, func(_ context.Context, _ *store.Desk, v any) (delivery.Act, error) {
		return *v.(*T), nil
	}}
}

// forms lists the acts by name.
func forms() []form {
	return []form{
		{"add-user", func() any { return new(addUser) }, userAdded},
		plain[delivery.Alarm]("alarm"),
		plain[delivery.Resolve]("answer"),
		plain[delivery.Arrive]("arrive"),
		plain[delivery.Ask]("ask"),
		plain[delivery.GiveBands]("bands"),
		plain[delivery.BackFromRepair]("back-from-repair"),
		plain[delivery.Bench]("bench"),
		plain[delivery.BookTrip]("book-trip"),
		plain[delivery.Call]("call"),
		plain[delivery.CallOffTrip]("call-off-trip"),
		plain[delivery.ChangeRole]("change-role"),
		plain[delivery.Chase]("chase"),
		plain[delivery.CountSupply]("count-supply"),
		plain[delivery.Describe]("describe"),
		plain[delivery.Die]("died"),
		{"discharge", func() any { return new(discharge) }, discharged},
		plain[delivery.EndRun]("end-run"),
		plain[delivery.Erase]("erase"),
		{"enrol", func() any { return new(enrol) }, enrolled},
		plain[delivery.Escalate]("escalate"),
		plain[delivery.FindPlaces]("find-places"),
		plain[delivery.Find]("found"),
		plain[delivery.GiveSupply]("give-supply"),
		plain[delivery.HandIn]("hand-in"),
		plain[delivery.Incident]("incident"),
		plain[delivery.Label]("label"),
		plain[delivery.LayTubing]("lay-tubing"),
		plain[delivery.LeaveAlone]("leave-alone"),
		plain[delivery.Lose]("lose"),
		{"exchange", func() any { return new(exchange) }, exchanged},
		plain[delivery.Move]("move"),
		plain[delivery.Maintain]("maintain"),
		plain[delivery.MoveSupply]("move-supply"),
		{"move-home", func() any { return new(moveHome) }, movedHome},
		plain[delivery.NightLine]("night-line"),
		plain[delivery.Order]("order"),
		plain[delivery.Outage]("outage"),
		plain[delivery.OutageCall]("outage-call"),
		plain[delivery.PowerReturned]("power-back"),
		{"plan-anew", func() any { return new(struct{}) }, func(context.Context, *store.Desk, any) (delivery.Act, error) {
			return delivery.PlanAnew{Steps: searchSteps}, nil
		}},
		{"place", func() any { return new(place) }, placed},
		plain[delivery.Prove]("prove"),
		plain[delivery.Quarantine]("quarantine"),
		plain[delivery.Read]("read"),
		plain[delivery.Readmit]("readmit"),
		plain[delivery.Recall]("recall"),
		plain[delivery.RecallLetter]("recall-letter"),
		plain[delivery.RecallReply]("recall-reply"),
		plain[delivery.RecallSupply]("recall-supply"),
		plain[delivery.ReceiveSupply]("receive-supply"),
		plain[delivery.Refill]("refill"),
		plain[delivery.Refuse]("refuse"),
		{"register", func() any { return new(register) }, registered},
		plain[delivery.Release]("release"),
		plain[delivery.Requalify]("requalify"),
		plain[delivery.Retract]("retract"),
		plain[delivery.Return]("return"),
		plain[delivery.ReturnBySlip]("return-by-slip"),
		plain[delivery.SendToRepair]("send-to-repair"),
		plain[delivery.SetClock]("set-clock"),
		{"set-passphrase", func() any { return new(setPassphrase) }, passphraseSet},
		plain[delivery.SetSize]("set-size"),
		plain[delivery.Shelter]("shelter"),
		plain[delivery.SignInOff]("sign-in-off"),
		plain[delivery.SignInOn]("sign-in-on"),
		plain[delivery.Stocktake]("stocktake"),
		plain[delivery.StopOxygen]("stop"),
		plain[delivery.Stray]("stray"),
		plain[delivery.Switch]("switch"),
		plain[delivery.SwitchUserOff]("switch-user-off"),
		plain[delivery.TakeBack]("take-back"),
		{"take-rides", func() any { return new(rideFile) }, ridesTaken},
		{"take-places", func() any { return new(placeFile) }, placesTaken},
		plain[delivery.TakeSlot]("take-slot"),
		plain[delivery.TellOwner]("tell-owner"),
		plain[delivery.Test]("test"),
		plain[delivery.Unreceive]("unreceive"),
		plain[delivery.Withdraw]("withdraw"),
		{"visit", func() any { return new(visit) }, visited},
	}
}

// act does one act.
func act(ctx context.Context, p *Program, args []string) error {
	if len(args) == 0 {
		return misuse{"name an act; 'act --list' lists them"}
	}
	if args[0] == "--list" {
		p.listForms(forms())
		return nil
	}
	all := forms()
	i := slices.IndexFunc(all, func(f form) bool { return f.name == args[0] })
	if i < 0 {
		return misuse{fmt.Sprintf("there is no act %q; 'act --list' lists them", args[0])}
	}
	fs := p.flags("act " + args[0])
	var at moment
	fs.String("book", "", "the book") // read before the rest: the fields are looked up on it
	p.signIn.early(args)
	by := fs.String("by", p.User, "who does it, where the book asks for no name")
	asJSON := fs.Bool("json", false, "print JSON")
	fs.Var(&at, "at", "when it happened")
	return p.writing(ctx, early(args, "book"), func(desk *store.Desk) error {
		into := all[i].make()
		if err := (filler{ctx, desk}).fill(fs, args[1:], into); err != nil {
			return err
		}
		deed, err := all[i].act(ctx, desk, into)
		if err != nil {
			return err
		}
		out, err := desk.Do(ctx, store.Hand{By: *by, Source: inventory.Command, At: at.or(p)}, deed)
		if err != nil {
			return err
		}
		return p.printOutcome(out, *asJSON)
	})
}

// early finds a flag before the rest is parsed: the other fields are looked up
// on the book that it chooses.
func early(args []string, name string) string {
	for i, a := range args {
		bare, value, has := strings.Cut(strings.TrimLeft(a, "-"), "=")
		switch {
		case bare != name || !strings.HasPrefix(a, "-"):
		case has:
			return value
		case i+1 < len(args):
			return args[i+1]
		}
	}
	return ""
}

func (p *Program) listForms(all []form) {
	for _, f := range all {
		fmt.Fprintf(p.Out, "%s\n", f.name)
		for _, fd := range fieldsOf(reflect.TypeOf(f.make()).Elem()) {
			mark := ""
			if fd.optional {
				mark = " (optional)"
			}
			fmt.Fprintf(p.Out, "  --%-12s %s%s\n", fd.name, fd.help, mark)
		}
	}
}

type factLine struct {
	ID     inventory.FactID   `json:"id"`
	Says   string             `json:"says"`
	At     time.Time          `json:"at"`
	Item   inventory.ItemID   `json:"item,omitempty"`
	Person inventory.PersonID `json:"person,omitempty"`
	Run    inventory.RunID    `json:"run,omitempty"`
	Body   any                `json:"body"`
}

func (p *Program) printOutcome(out store.Outcome, asJSON bool) error {
	if !asJSON {
		fmt.Fprintln(p.Out, out.Says)
		return nil
	}
	lines := make([]factLine, len(out.Facts))
	for i, f := range out.Facts {
		lines[i] = factLine{f.ID, f.Statement.Says(), f.Happened, f.Item, f.Person, f.Run, f.Statement}
	}
	return p.print(struct {
		Says  string     `json:"says"`
		Facts []factLine `json:"facts"`
	}{out.Says, lines})
}
