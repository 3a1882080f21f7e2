package paperwork

import (
	"context"
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/requal"
	"lungwort/inventory/sheet"
	items "lungwort/inventory/store"
)

// Person returns everything the book has about one person, named by record
// number, name or id.
func (c Clerk) Person(ctx context.Context, text string) (sheet.Out, error) {
	who, err := c.book.Person(ctx, text)
	if err != nil {
		return sheet.Out{}, err
	}
	page, err := c.book.Page(ctx, who, c.Now)
	if err != nil {
		return sheet.Out{}, err
	}
	list, _, err := c.book.Items(ctx, items.Filter{})
	if err != nil {
		return sheet.Out{}, err
	}
	labels := make(map[inventory.ItemID]string, len(list))
	for _, i := range list {
		labels[i.ID] = i.Label()
	}
	out := story("person", "Everything about one person", c.Now)
	p, a := page.Person, page.Address
	for _, line := range [][2]string{
		{"Name", p.Name()}, {"Record number", p.Record}, {"Born", p.Born}, {"Language", p.Language}, {"Note", p.Note},
		{"Address", a.Where()}, {"Access", a.Access}, {"Mains", string(a.Mains)}, {"Power line", a.Line}, {"Phase", string(page.Care.Phase)}, {"Order", order(page.Care)},
	} {
		if line[1] != "" {
			out.Rows = append(out.Rows, []any{"now", nil, line[0], line[1], nil, nil, nil})
		}
	}
	for _, phone := range p.Phones {
		out.Rows = append(out.Rows, []any{"now", nil, "Phone", phone.Number, phone.Whose, nil, nil})
	}
	for _, h := range page.Care.Kit {
		out.Rows = append(out.Rows, []any{"on loan", when(h.Since, c.Now), labels[h.Item], h.Spec.What() + ", " + string(h.Role), nil, nil, nil})
	}
	told(&out, page.Facts, func(f inventory.Fact) string { return labels[f.Item] }, c.Now)
	return out, nil
}

// Item returns everything the book has about one item, named by serial.
func (c Clerk) Item(ctx context.Context, serial string) (sheet.Out, error) {
	item, err := c.book.Item(ctx, serial, 0)
	if err != nil {
		return sheet.Out{}, err
	}
	page, err := c.book.ItemPage(ctx, item.ID)
	if err != nil {
		return sheet.Out{}, err
	}
	names, err := c.book.Names(ctx)
	out := story("item", "Everything about one item", c.Now)
	for _, line := range [][2]string{
		{"Serial", item.Spec.Serial}, {"What it is", item.Spec.What()}, {"Model", item.Spec.Model}, {"Owner", ownerName(item.Spec.Owner)},
		{"State", string(item.State)}, {"Place", item.Place.InWords()}, {"Person", names[item.Person]}, {"Requalify", requalify(item.Spec, c.Now)}, {"Recall", item.Recall},
	} {
		if line[1] != "" {
			out.Rows = append(out.Rows, []any{"now", nil, line[0], line[1], nil, nil, nil})
		}
	}
	facts := slices.Clone(page.Facts)
	slices.Reverse(facts)
	told(&out, facts, func(f inventory.Fact) string { return names[f.Person] }, c.Now)
	return out, err
}

func requalify(s inventory.Spec, now time.Time) string {
	due, known := requal.ParseMonth(s.Requal)
	if !known {
		return ""
	}
	return requal.InWords(due, now)
}

// story is the empty sheet of everything about one thing or person.
func story(of, title string, now time.Time) sheet.Out {
	return sheet.Out{
		Name: "Everything", Title: title, AsOf: now, What: "page of one " + of,
		Columns: []sheet.Column{
			{Heading: "Part", Width: 10}, {Heading: "When", Kind: sheet.Time}, {Heading: "About", Width: 24}, {Heading: "What", Width: 70},
			{Heading: "By", Width: 16}, {Heading: "Source", Width: 12}, {Heading: "Recorded", Kind: sheet.Time, Note: "when the book came to know it"},
		},
		Notes: []string{"Facts stand newest first. One that was taken back is listed with what took it back."},
	}
}

// told adds facts to a story.
func told(out *sheet.Out, facts []inventory.Fact, about func(inventory.Fact) string, now time.Time) {
	for _, f := range facts {
		out.Rows = append(out.Rows, []any{"fact", when(f.Happened, now), about(f), delivery.Sentence(f), f.By, string(f.Source), when(f.Recorded, now)})
	}
}
