package window

import (
	"context"
	"fmt"

	"lungwort/inventory"
	"lungwort/ui/draft"
	"lungwort/ui/widgets"
	"lungwort/ui/work"
)

// typing is a screen with fields that take typing, about the person in hand
// where the screen chooses one itself.
type typing interface {
	Typing() (inventory.PersonID, map[string]widgets.Input)
}

// gathering is a screen on which scans gather until they are done with at once: a
// count, an exchange.
type gathering interface {
	Gathered() string    // in words of the screen's own; empty: nothing
	Regather(was string) // as it was gathered before
}

// gathered is the name under which scans are kept beside what was typed.
const gathered = "gathered"

// drafts keeps what is half typed on the screens of a frame.
type drafts struct {
	keeper *draft.Keeper
	frame  *Frame
	over   *draft.Form // the small form open over the screen
	inputs map[string]widgets.Input
	back   bool // what was typed waits to be put back: Ctrl+Z does that, from any field
}

// KeepDrafts lets the frame keep what is half typed.
func (f *Frame) KeepDrafts(k *draft.Keeper) {
	d := &drafts{keeper: k, frame: f}
	f.drafts = d
	widgets.Typed, widgets.Shown = d.typed, d.shown
}

// here is the form that typing or scans go into now, with what stands in it; none
// where the screen takes neither.
func (d *drafts) here() (form draft.Form, takes bool) {
	if d.over != nil {
		form = *d.over
		form.Texts = widgets.Written(d.inputs)
		return form, true
	}
	switch room := d.frame.rooms[d.frame.here.Room].(type) {
	case typing:
		person, inputs := room.Typing()
		form = d.form(person)
		form.Texts = widgets.Written(inputs)
	case gathering:
		form = d.form("")
		if scans := room.Gathered(); scans != "" {
			form.Texts = map[string]string{gathered: scans}
		}
	default:
		return form, false
	}
	return form, true
}

// form names the open screen's form.
func (d *drafts) form(person inventory.PersonID) draft.Form {
	t := d.frame.here
	if person == "" {
		person = t.Person
	}
	return draft.Form{Room: t.Room, Person: person, Item: t.Item, Run: t.Run, By: d.frame.work.By, At: d.frame.work.Now()}
}

// typed keeps what stands in the form in hand.
func (d *drafts) typed() {
	d.back = false
	if form, takes := d.here(); takes {
		d.keep(form)
	}
}

func (d *drafts) keep(form draft.Form) {
	d.frame.work.Run.Go("draft "+string(form.Room)+form.Title, func(context.Context) error { return d.keeper.Keep(form) }, nil)
}

// done keeps no more of the screen's form: it was acted on.
func (d *drafts) done() {
	if form, takes := d.here(); takes && d.over == nil && form.Texts[gathered] == "" {
		form.Texts = nil
		d.keep(form)
	}
}

// shown puts what was typed before into a small form that opens again.
func (d *drafts) shown(title string, inputs map[string]widgets.Input) (closed func()) {
	form := d.form("")
	form.Title = title
	d.over, d.inputs = &form, inputs
	if left, found := d.keeper.Find(form); found {
		widgets.Rewrite(inputs, left.Texts)
		d.frame.notice.Say("As it was typed " + left.At.Format("Mon 15:04") + ".")
	}
	return func() {
		d.over, d.inputs = nil, nil
		d.keep(form)
	}
}

// offer tells what is to be told first, if anything, and offers the last form
// that was left half typed.
func (d *drafts) offer(first string) {
	own := d.keeper.Of(d.frame.work.By)
	if len(own) == 0 {
		if first != "" {
			d.frame.say(first)
		}
		return
	}
	left := own[0]
	says := first + fmt.Sprintf("Half typed %s, on %s", left.At.Format("Mon 15:04"), nameOf(left.Room))
	if left.Title != "" {
		says += ", “" + left.Title + "”"
	}
	d.frame.offer(says+".", "Open it", func() { d.reopen(left) })
}

// reopen goes to the screen of a form and, where it is the screen's own, puts
// back what was typed once the screen has read the book.
func (d *drafts) reopen(left draft.Form) {
	d.frame.Open(left.Target())
	if left.Title != "" {
		d.frame.offer("Open “"+left.Title+"” again: what was typed stands in it.", "Throw it away", func() { d.drop(left) })
		return
	}
	d.back = true
	d.frame.offer("What was there can be put back.", "Put it back", func() {
		d.back = false
		switch room := d.frame.rooms[left.Room].(type) {
		case typing:
			_, inputs := room.Typing()
			widgets.Rewrite(inputs, left.Texts)
		case gathering:
			room.Regather(left.Texts[gathered])
		}
	})
}

func (d *drafts) drop(left draft.Form) {
	left.Texts = nil
	d.keep(left)
}

// nameOf is what the side bar calls a screen.
func nameOf(room work.Room) string {
	for _, n := range names {
		if n.room == room {
			return n.name
		}
	}
	return "the page of a " + string(room)
}
