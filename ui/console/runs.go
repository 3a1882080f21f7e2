package console

import (
	"context"
	"fmt"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// slotQuestion asks when a vehicle can be at a home.
type slotQuestion struct {
	Person inventory.PersonID `act:"person" help:"record number, name or id"`
	Bring  []inventory.ItemID `act:"bring,optional" help:"brought to the home: tags or serials; left out: a concentrator"`
	Leaves time.Time          `act:"leaves,optional" help:"when they leave the ward"`
}

// askSlot answers for a person whose task waits for a run, else for the
// delivery that a discharge would open.
func askSlot(ctx context.Context, desk *store.Desk, q *slotQuestion, at time.Time) (delivery.Answer, error) {
	board, err := desk.Board(ctx, at)
	if err != nil {
		return delivery.Answer{}, err
	}
	if stop, on := board.StopOf(q.Person); on {
		if !board.Waits(stop) {
			return delivery.Answer{}, refusal.New(refusal.Conflict, "A vehicle goes there already.", "Look at the runs for when.")
		}
		return board.SlotAnswer(stop), nil
	}
	page, err := desk.Page(ctx, q.Person, at)
	if err != nil {
		return delivery.Answer{}, err
	}
	p, err := desk.Programme(ctx)
	if err != nil {
		return delivery.Answer{}, err
	}
	bring, err := wanted(ctx, desk, q.Bring)
	if err != nil {
		return delivery.Answer{}, err
	}
	if q.Leaves.IsZero() {
		q.Leaves = at.Add(p.WardDelay)
	}
	with, stop, known := board.With(p.Bringing(page.Address, page.Person.Language, q.Leaves, time.Time{}, bring))
	if !known {
		return delivery.Answer{}, refusal.New(refusal.Unready, "Nobody knows where the address is.", "Set its place on the map on the person's page.")
	}
	return with.SlotAnswer(stop), nil
}

// wanted returns items as a task asks for them; a concentrator where none are
// named.
func wanted(ctx context.Context, desk *store.Desk, ids []inventory.ItemID) ([]delivery.Wanted, error) {
	if len(ids) == 0 {
		return []delivery.Wanted{{Kind: inventory.Concentrator, Count: 1}}, nil
	}
	var list []delivery.Wanted
	for _, id := range ids {
		page, err := desk.ItemPage(ctx, id)
		if err != nil {
			return nil, err
		}
		spec := page.Item.Spec
		list = append(list, delivery.Wanted{Kind: spec.Kind, Size: spec.Size, Rated: spec.Rated, Count: 1})
	}
	return list, nil
}

// replanned is the day planned anew, as JSON.
type replanned struct {
	Changes  []changeLine  `json:"changes"`
	Troubles []troubleLine `json:"troubles"`
	Notes    []string      `json:"notes"`
}

type changeLine struct {
	Says    string               `json:"says"`
	Where   string               `json:"where"`
	Persons []inventory.PersonID `json:"persons"`
	From    string               `json:"from,omitempty"`
	To      string               `json:"to,omitempty"`
	Was     time.Time            `json:"was,omitzero"`
	Will    time.Time            `json:"will,omitzero"`
	ActBy   time.Time            `json:"act_by,omitzero"`
}

type troubleLine struct {
	Where   string             `json:"where"`
	Person  inventory.PersonID `json:"person"`
	Says    string             `json:"says"`
	Minutes int                `json:"minutes"`
	Relief  string             `json:"relief,omitempty"`
}

// showReplan prints what planning the day anew would change. It writes nothing.
func (p *Program) showReplan(ctx context.Context, desk *store.Desk, at time.Time, asJSON bool) error {
	board, err := desk.Board(ctx, at)
	if err != nil {
		return err
	}
	anew, err := board.Replan(ctx, searchSteps)
	if err != nil {
		return err
	}
	if asJSON {
		return p.print(replanLines(anew, at))
	}
	if len(anew.Shifts) == 0 {
		fmt.Fprintln(p.Out, "nothing changes")
	}
	for _, s := range anew.Shifts {
		fmt.Fprintln(p.Out, s.Says(at))
	}
	for _, n := range anew.Notes {
		fmt.Fprintln(p.Out, "see to: "+n)
	}
	p.printTroubles(anew.Troubles)
	return nil
}

func replanLines(r delivery.Replan, at time.Time) replanned {
	out := replanned{Changes: []changeLine{}, Troubles: []troubleLine{}, Notes: r.Notes}
	for _, s := range r.Shifts {
		out.Changes = append(out.Changes, changeLine{s.Says(at), s.Where, s.Persons, s.From, s.To, s.Was, s.Will, s.ActBy})
	}
	for _, t := range r.Troubles {
		out.Troubles = append(out.Troubles, troubleLine{t.Where, t.Person, t.Says, int(t.Late / time.Minute), t.Relief})
	}
	return out
}

func (p *Program) printTroubles(troubles []delivery.Trouble) {
	for _, t := range troubles {
		fmt.Fprintf(p.Out, "can't be kept: %s: %s", t.Where, t.Says)
		if t.Relief != "" {
			fmt.Fprintf(p.Out, "; would help: %s", t.Relief)
		}
		fmt.Fprintln(p.Out)
	}
}

// sinceQuestion asks what stands otherwise than it was known.
type sinceQuestion struct {
	From time.Time `act:"from" help:"what was known at this time"`
}

// showSince prints what stands otherwise than the book knew it: differences
// only.
func (p *Program) showSince(ctx context.Context, desk *store.Desk, from, at time.Time, asJSON bool) error {
	news, err := desk.Since(ctx, from, at)
	if err != nil {
		return err
	}
	if asJSON {
		return p.print(append([]delivery.News{}, news...))
	}
	for _, n := range news {
		fmt.Fprintf(p.Out, "%s: %s\n", n.Name, strings.Join(n.Says, "; "))
	}
	fmt.Fprintf(p.Out, "%d otherwise since %s\n", len(news), delivery.Clock(from, at))
	return nil
}
