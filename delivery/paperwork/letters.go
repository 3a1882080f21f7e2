package paperwork

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strconv"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/labels/paper"
	"lungwort/labels/tag"
	"lungwort/labels/tongue"
)

// letter is what every letter to a home begins with.
func (d Desk) letter(page store.PersonPage, t tongue.Tongue, code, title string) paper.HomeLetter {
	t = spoken(t)
	l := paper.HomeLetter{
		Head: d.head(code), Tongue: t, Name: page.Person.Name(), Address: nonEmpty(page.Address.Street, page.Address.Town),
		Title: t.Say(title), Phone: d.Programme.Phone,
	}
	l.OnCall = "" // who is on call tonight is not when the letter is read
	return l
}

// RecallLetter tells a person of a thing at home that a recall names. It asks
// to be rung, and never says to stop breathing from it: the programme decides
// on the phone what is done until the swap.
func (d Desk) RecallLetter(page store.PersonPage, t tongue.Tongue) (paper.HomeLetter, error) {
	i := slices.IndexFunc(page.Kit, func(item inventory.Item) bool { return item.Recall != "" })
	switch {
	case page.Care.Died != nil:
		return paper.HomeLetter{}, afterDeath(page.Person)
	case i < 0:
		return paper.HomeLetter{}, refusal.New(refusal.NotFound, "No recall names a thing this person has.", "Mark it on the screen Recall first.")
	}
	l := d.letter(page, t, d.code(tag.PaperRecall, string(page.Kit[i].ID)), "recall.title")
	say := l.Tongue.Say
	l.Before = []string{say("recall.why", "notice", page.Kit[i].Recall)}
	for _, item := range page.Kit[i:] {
		if item.Recall == page.Kit[i].Recall {
			l.Things = append(l.Things, leafletThing(item))
		}
	}
	l.After = []string{say("recall.ring"), say("recall.never")}
	l.Reply = []string{say("recall.use"), say("recall.rests"), say("recall.gone")}
	return l, nil
}

// RecallLetters returns the letters about a recall to all these persons, each in
// their own language, and how many get none because they died: their one contact
// is rung. The folder may hold language files of the programme's own.
func (c Clerk) RecallLetters(ctx context.Context, people []inventory.PersonID, folder string) (letters paper.HomeLetters, died int, err error) {
	for _, who := range people {
		page, err := c.book.Page(ctx, who, c.Now)
		if err != nil {
			return nil, 0, err
		}
		if page.Care.Died != nil {
			died++
			continue
		}
		spoken, _, err := c.Tongue(ctx, who, "", folder)
		if err != nil {
			return nil, 0, err
		}
		letter, err := c.RecallLetter(page, spoken)
		if err != nil {
			return nil, 0, err
		}
		letters = append(letters, letter)
	}
	return letters, died, nil
}

// CollectLetter asks a home for what is not needed there any more. Valued is the
// last of the letters, with what each thing is worth as the settings say, or room
// for it. After a death nothing is written: the one person named is asked, once.
func (c Clerk) CollectLetter(ctx context.Context, page store.PersonPage, t tongue.Tongue, valued bool) (paper.HomeLetter, error) {
	if page.Care.Died != nil {
		return paper.HomeLetter{}, afterDeath(page.Person)
	}
	all, err := c.book.Hidden(ctx, c.Now)
	if err != nil {
		return paper.HomeLetter{}, err
	}
	i := slices.IndexFunc(all, func(h delivery.Hidden) bool { return h.Person.ID == page.Person.ID })
	if i < 0 {
		return paper.HomeLetter{}, refusal.New(refusal.Conflict, "Nothing of ours is there that is not needed.", "A letter asks only for what nobody needs; look at the person's page.")
	}
	l := c.letter(page, t, c.code(tag.PaperLetter, string(page.Person.ID)), "collect.title")
	say := l.Tongue.Say
	l.Before = []string{say("collect.why")}
	if valued {
		l.Title, l.Valued = say("value.title"), true
		l.Before = []string{say("value.why"), say("value.worth")}
	}
	for _, held := range all[i].Things {
		for _, item := range page.Kit {
			if item.ID == held.Item {
				l.Things = append(l.Things, c.valued(item))
			}
		}
	}
	l.After = []string{say("collect.come"), say("collect.need"), say("collect.lost"), say("collect.safe")}
	l.Reply = []string{say("collect.day"), say("collect.keep"), say("collect.gone")}
	return l, nil
}

// valued is a thing with what it is worth.
func (c Clerk) valued(i inventory.Item) paper.LeafletThing {
	t := leafletThing(i)
	if worth, known := c.Programme.Prices.Worth[i.Spec.Kind]; known {
		t.Worth = strconv.FormatFloat(worth, 'f', -1, 64)
	}
	return t
}

// afterDeath is why no letter goes out.
func afterDeath(p delivery.Person) error {
	whom := "the one person named"
	if p.Contact != nil {
		whom = cmp.Or(p.Contact.Whose, whom) + ", " + p.Contact.Number
	}
	return refusal.New(refusal.Conflict, "This person died: no letter goes to the home.", fmt.Sprintf("Ring %s, once, when it suits them.", whom))
}
