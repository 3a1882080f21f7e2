package delivery

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/inventory/requal"
)

// Requalify records the stamp somebody read on a cylinder.
type Requalify struct {
	Item    inventory.ItemID `act:"item" help:"tag or serial"`
	Stamp   string           `act:"stamp" help:"as stamped: 04-19, 10 A123 23 +"`
	Shell   string           `act:"shell,optional" help:"specification as stamped: 3AL, 3AA"`
	Confirm bool             `act:"confirm,optional" help:"the stamp was read again and is so"`
}

// Decide works the month out from the stamp by the rules in force. What is
// doubtful about a stamp is asked, never guessed.
func (a Requalify) Decide(v View) (Change, error) {
	item, err := v.Item(a.Item)
	if err != nil {
		return Change{}, err
	}
	if item.Spec.Kind != inventory.Cylinder {
		return Change{}, refusal.New(refusal.Invalid, fmt.Sprintf("%s is a %s and is not requalified.", item.Label(), item.Spec.What()), "Scan a cylinder.")
	}
	stamp, err := requal.Parse(a.Stamp, v.At())
	if err != nil {
		return Change{}, refusal.New(refusal.Invalid, capital(err.Error())+".", "Read the shoulder of the cylinder again.").Because(err)
	}
	shell := cmp.Or(strings.TrimSpace(a.Shell), item.Spec.Shell)
	due, questions := requal.Due(shell, stamp, v.At())
	if len(questions) > 0 && !a.Confirm {
		return Change{}, refusal.New(refusal.Ask, fmt.Sprintf("The stamp %q on %s: %s.", a.Stamp, item.Label(), strings.Join(questions, "; ")), "Read it again; confirm it if it is so.")
	}
	s := &inventory.Stamped{Stamp: a.Stamp, Shell: shell, Rule: requal.RuleOf(shell, v.At()).Source}
	if due != (requal.Month{}) {
		s.Due = due.String()
	}
	var c Change
	c.item(item.ID, s)
	c.Says = fmt.Sprintf("%s is due for requalification by the end of %s.", item.Label(), s.Due)
	if s.Due == "" {
		c.Says = fmt.Sprintf("%s needs no requalification.", item.Label())
	}
	if fill, _ := requal.MayFill(due, v.At()); !fill {
		c.Says += " That is past: it may be used until it is empty, and is not filled again before."
	}
	return c, nil
}

func capital(text string) string {
	if text == "" {
		return text
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

// fillable refuses to fill a cylinder whose month of requalification is past.
func fillable(item inventory.Item, at time.Time) error {
	due, known := requal.ParseMonth(item.Spec.Requal)
	if !known {
		return nil
	}
	if ok, _ := requal.MayFill(due, at); ok {
		return nil
	}
	return refusal.New(refusal.Unready,
		fmt.Sprintf("%s was due for requalification by the end of %s and is not filled.", item.Label(), time.Date(due.Year, due.Month, 1, 0, 0, 0, 0, time.UTC).Format("January 2006")),
		"Have it requalified and read the new stamp. What is in it may be used until it is empty.")
}
