package delivery

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"lungwort/inventory"
)

// News is what stands otherwise than it was known before: of a person, a thing
// or a run. Only differences are told, not how they came about.
type News struct {
	Person inventory.PersonID `json:"person,omitempty"`
	Item   inventory.ItemID   `json:"item,omitempty"`
	Run    inventory.RunID    `json:"run,omitempty"`
	Name   string             `json:"name"`
	Says   []string           `json:"says"`
}

// News returns what is otherwise with a person than it was known then.
func (c Care) News(then Care, now time.Time) []string {
	var says []string
	add := func(format string, args ...any) { says = append(says, fmt.Sprintf(format, args...)) }
	if c.Phase != then.Phase {
		add("was %s, is %s since %s", then.Phase, c.Phase, Clock(c.Since, now))
	}
	if c.Order != nil && (then.Order == nil || *c.Order != *then.Order) {
		add("order: %s", c.Order.InWords())
	}
	if c.Address != then.Address && then.Address != "" {
		add("sleeps at another address")
	}
	if came := lacking(c.Kit, then.Kit); len(came) > 0 {
		add("has now %s", strings.Join(came, ", "))
	}
	if gone := lacking(then.Kit, c.Kit); len(gone) > 0 {
		add("no longer has %s", strings.Join(gone, ", "))
	}
	for _, h := range c.Kit {
		was, had := then.Holding(h.Item)
		if had && h.Gauge != nil && (was.Gauge == nil || was.Gauge.Fact != h.Gauge.Fact) {
			add("%s %s %s %s", h.Spec.Serial, h.Gauge.Value, h.Gauge.How(), Clock(h.Gauge.At, now))
		}
	}
	for _, r := range c.Refusals[min(len(then.Refusals), len(c.Refusals)):] {
		add("refused %s: %s", r.What, r.Why)
	}
	says = append(says, c.taskNews(then, now)...)
	return append(says, c.callNews(then, now)...)
}

// lacking names what one kit has that another has not.
func lacking(kit, other []Holding) []string {
	var names []string
	for _, h := range kit {
		if !slices.ContainsFunc(other, func(o Holding) bool { return o.Item == h.Item }) {
			names = append(names, h.Spec.Serial)
		}
	}
	return names
}

func (c Care) taskNews(then Care, now time.Time) []string {
	var says []string
	for _, t := range c.Tasks {
		was, had := then.Task(t.ID)
		switch {
		case !had:
			says = append(says, fmt.Sprintf("open: %s (%s)", t.Tasked.Task, t.Why))
		case len(t.Tries) > len(was.Tries):
			words := fmt.Sprintf("%s failed: %s", t.Tasked.Task, t.Tries[len(t.Tries)-1])
			if !t.From.IsZero() && !t.From.Equal(was.From) {
				words += "; next try " + Clock(t.From, now)
			}
			says = append(says, words)
		}
	}
	for _, t := range then.Tasks {
		if _, open := c.Task(t.ID); !open {
			says = append(says, fmt.Sprintf("closed: %s (%s)", t.Tasked.Task, t.Why))
		}
	}
	return says
}

func (c Care) callNews(then Care, now time.Time) []string {
	var says []string
	if c.LastCall != nil && (then.LastCall == nil || !c.LastCall.At.Equal(then.LastCall.At)) {
		says = append(says, called(c.LastCall.Called)+" "+Clock(c.LastCall.At, now))
	}
	if c.Tried > then.Tried {
		says = append(says, "called without an answer "+times(c.Tried))
	}
	return says
}

// News returns what is otherwise with a run than it was known then.
func (r Run) News(then Run) []string {
	var says, failed []string
	made := 0
	why := make(map[string]int)
	for _, s := range r.Stops {
		was := slices.ContainsFunc(then.Stops, func(o Stop) bool { return o.Address == s.Address && !o.Closed.IsZero() })
		switch {
		case s.Closed.IsZero() || was:
		case s.Failed != "":
			failed, why[s.Failed] = with(failed, s.Failed), why[s.Failed]+1
		default:
			made++
		}
	}
	if made > 0 {
		says = append(says, count(made, "stop")+" made")
	}
	for _, reason := range failed {
		says = append(says, count(why[reason], "stop")+" failed: "+reason)
	}
	if then.Day == "" {
		says = append(says, "planned")
	}
	switch open := len(r.Open()); {
	case !r.Ended.IsZero() && then.Ended.IsZero():
		says = append(says, "closed")
		if r.Counted != nil && r.Counted.differs() {
			says = append(says, r.Counted.InWords())
		}
	case open > 0 && made > 0:
		says = append(says, count(open, "stop")+" still open")
	}
	return says
}

// ItemNews returns what is otherwise with a thing than it was known then.
func ItemNews(item, then inventory.Item) []string {
	switch {
	case then.State == item.State && then.Place == item.Place:
		return nil
	case then.Tag == 0:
		return []string{fmt.Sprintf("new in the book: %s at %s", item.State, item.Place.Name())}
	case then.State == item.State:
		return []string{fmt.Sprintf("%s, from %s to %s", item.State, then.Place.Name(), item.Place.Name())}
	}
	return []string{fmt.Sprintf("was %s, is %s at %s", then.State, item.State, item.Place.Name())}
}
