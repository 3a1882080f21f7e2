package person

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/depletion"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/ui/ask"
)

// OrderForm takes a prescription down. Nothing is filled in from the order
// before: the new one replaces it whole.
func (m *Model) OrderForm() ask.Form {
	before := "There is no order yet."
	if o := m.page.Care.Order; o != nil {
		before = "It replaces the whole order before it: " + o.InWords() + "."
	}
	return ask.Form{
		Title: "New order", Button: "Put in force", Before: before + " " + delivery.NoFlowAdvice,
		Fields: []ask.Field{
			{Key: "rest", Label: "At rest", Kind: ask.Flow},
			{Key: "exertion", Label: "On exertion", Kind: ask.Flow},
			{Key: "asleep", Label: "Asleep", Kind: ask.Flow},
			{Key: "hours", Label: "Hours a day", Kind: ask.Number, Unit: "h"},
			{Key: "device", Label: "Device", Hint: "cannula, mask"},
			{Key: "setting", Label: "Pulse setting", Hint: "of a pulse device alone; it is not a flow"},
			{Key: "bolus", Label: "Bolus", Hint: "mL a breath at this setting, from the device's papers; without it nothing is foretold"},
			{Key: "breaths", Label: "Breaths", Kind: ask.Number, Unit: "a minute", Hint: "counted for a minute"},
			{Key: "review", Label: "Review", Kind: ask.Moment, Hint: "when “still needed?” goes to the clinician"},
			{Key: "prescriber", Label: "Prescriber"},
			{Key: "names", Label: "Names", Kind: ask.Pick, Hint: "equipment the order names; nothing is taken away by it", Options: []ask.Option{
				{Value: "concentrator", Label: "concentrator"}, {Value: "cylinder", Label: "cylinders"}, {Value: "concentrator, cylinder", Label: "both"},
			}},
			ask.When(m.work.Now()),
		},
		Live:   m.orderMeans,
		Submit: m.orderSubmit,
	}
}

// orderMeans compares the order as far as it is written with what is in the
// house, before anything moves.
func (m *Model) orderMeans(a ask.Answers) (says string, alarm bool) {
	act := m.orderAct(ask.Read(a))
	if act.Rest == 0 && act.Setting == "" {
		return "", false
	}
	o := act.Ordered()
	if o.Hours == 0 {
		o.Hours = 24 // not written yet; what is missing is said when it is put in force
	}
	answer := delivery.OrderChange{Care: m.page.Care, New: o, Ready: m.machines, At: m.work.Now()}.Answer(m.all)
	lines := append([]string{string(answer.Verdict) + ": " + answer.Title}, answer.Do...)
	for _, f := range answer.Facts {
		if !strings.HasSuffix(f, ": stays") {
			lines = append(lines, f)
		}
	}
	return strings.Join(lines, ". "), answer.Verdict != depletion.Holds
}

// orderAct reads the order as it is written.
func (m *Model) orderAct(r *ask.Reader) delivery.Order {
	act := delivery.Order{
		Person: m.id, Rest: orZero(r.Flow("rest")), Exertion: orZero(r.Flow("exertion")), Asleep: orZero(r.Flow("asleep")),
		Device: r.Text("device"), Names: r.Text("names"), Setting: r.Text("setting"), Prescriber: r.Text("prescriber"),
		Review: r.Time("review", m.work.Now().Location()),
	}
	if text := r.Text("bolus"); text != "" {
		bolus, err := gas.ParseMillilitres(text)
		if err != nil {
			r.Fail("bolus", err)
		}
		act.Bolus = bolus
	}
	if breaths := r.Number("breaths", "a minute", 1, 80); breaths != nil {
		act.Breaths = *breaths
	}
	if hours := r.Number("hours", "h", 0, 24); hours != nil {
		act.Hours = *hours
	}
	return act
}

func (m *Model) orderSubmit(a ask.Answers, closed func(error)) ask.Wrong {
	r, now := ask.Read(a), m.work.Now()
	act := m.orderAct(r)
	if act.Hours == 0 && r.Wrong()["hours"] == nil {
		r.Fail("hours", errors.New("the order must say how many hours a day"))
	}
	if act.Rest == 0 && act.Setting == "" {
		r.Fail("rest", errors.New("the order must say the flow at rest: no flow is assumed"))
	}
	at := r.Past("when", now)
	if len(r.Wrong()) > 0 {
		return r.Wrong()
	}
	return m.try(inventory.Keyed, at, act, closed)
}

func orZero(f *gas.Flow) gas.Flow {
	if f == nil {
		return 0
	}
	return *f
}

// TaskForm opens a task: what a vehicle is to bring or to take.
func (m *Model) TaskForm() ask.Form {
	return ask.Form{
		Title: "Open a task", Button: "Open task",
		Fields: []ask.Field{
			{Key: "task", Label: "Task", Kind: ask.Pick, Options: []ask.Option{
				{Value: string(delivery.Deliver), Label: "deliver"}, {Value: string(delivery.Swap), Label: "swap"}, {Value: string(delivery.Collect), Label: "collect"},
			}},
			{Key: "bring", Label: "Bring", Kind: ask.Pick, Options: m.bringable(), Hint: "nothing to choose for a collection, or for parts alone"},
			{Key: "count", Label: "How many", Kind: ask.Number, Value: "1"},
			{Key: "parts", Label: "Parts", Hint: "cannula, tubing, key, filter: the run sheet names them"},
			{Key: "why", Label: "Why"},
			{Key: "from", Label: "Promised from", Kind: ask.Moment, Hint: "left empty: any time"},
			{Key: "until", Label: "until", Kind: ask.Moment},
		},
		Submit: m.taskSubmit,
	}
}

// bringable are the sizes this person has, the usual spare, and a machine.
func (m *Model) bringable() []ask.Option {
	var options []ask.Option
	seen := map[gas.SizeCode]bool{}
	offer := func(code gas.SizeCode) {
		if size, known := m.all.Sizes.LookUp(code); known && !seen[code] {
			seen[code] = true
			options = append(options, ask.Option{Value: string(code), Label: size.Letter})
		}
	}
	for _, h := range m.page.Care.Kit {
		offer(h.Spec.Size)
	}
	for _, kit := range m.all.Kits {
		for _, w := range kit.Items {
			offer(w.Size)
		}
	}
	return append(options, ask.Option{Value: string(inventory.Concentrator), Label: "concentrator"})
}

func (m *Model) taskSubmit(a ask.Answers, closed func(error)) ask.Wrong {
	r, loc := ask.Read(a), m.work.Now().Location()
	act := delivery.Ask{
		Person: m.id, Task: delivery.Task(r.Need("task", "choose a task")), Why: r.Need("why", "write the reason: the driver reads it"),
		From: r.Time("from", loc), Until: r.Time("until", loc), Parts: a.Text("parts"),
	}
	brings := act.Task == delivery.Deliver || act.Task == delivery.Swap
	if brings && (a.Text("bring") != "" || act.Parts == "") {
		if bring, err := m.wanted(r, a.Text("bring")); err != nil {
			r.Fail("bring", err)
		} else {
			act.Bring = []delivery.Wanted{bring}
		}
	}
	if wrong := window(act.From, act.Until); wrong != nil {
		r.Fail("until", wrong)
	}
	if len(r.Wrong()) > 0 {
		return r.Wrong()
	}
	return m.try(inventory.Keyed, m.work.Now(), act, closed)
}

// wanted returns what is brought; a concentrator must give the highest flow
// ordered or seen.
func (m *Model) wanted(r *ask.Reader, bring string) (delivery.Wanted, error) {
	count := 1
	if n := r.Number("count", "", 1, 20); n != nil {
		count = int(*n)
	}
	switch bring {
	case "":
		return delivery.Wanted{}, errors.New("choose what is brought")
	case string(inventory.Concentrator):
		_, highest := m.page.Care.Flow()
		return delivery.Wanted{Kind: inventory.Concentrator, Rated: highest, Count: count}, nil
	}
	return delivery.Wanted{Kind: inventory.Cylinder, Size: gas.SizeCode(bring), Count: count}, nil
}

func window(from, until time.Time) error {
	switch {
	case from.IsZero() != until.IsZero():
		return errors.New("a promise has a beginning and an end: write both times, or none")
	case !from.IsZero() && !until.After(from):
		return fmt.Errorf("it ends before it begins at %s", from.Format("15:04"))
	}
	return nil
}
