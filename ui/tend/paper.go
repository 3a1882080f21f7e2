package tend

import (
	"context"
	"path/filepath"

	"lungwort/delivery/paperwork"
	"lungwort/inventory"
	"lungwort/ui/ask"
)

// Paper prints a tag that goes with the item: over the bench, or to keep
// everybody's hands off it.
func (t Tender) Paper() ask.Form {
	options := make([]ask.Option, len(paperwork.ItemPapers))
	for i, p := range paperwork.ItemPapers {
		options[i] = ask.Option{Value: p.ID, Label: p.Name}
	}
	value := options[0].Value
	if t.Item.State == inventory.Ready || t.Item.State == inventory.Held {
		value = paperwork.ReadyTag
	}
	if t.Item.Recall != "" || t.Item.State == inventory.InQuarantine || t.Item.State == inventory.NotOurs {
		value = options[1].Value
	}
	return ask.Form{
		Title: "Print", Button: "Print",
		Fields: []ask.Field{{Key: "paper", Label: "Paper", Kind: ask.Pick, Options: options, Value: value}},
		Submit: func(a ask.Answers, closed func(error)) ask.Wrong {
			closed(nil)
			t.print(a.Text("paper"))
			return nil
		},
	}
}

func (t Tender) print(id string) {
	t.Work.Paper(id+"-"+string(t.Item.ID), "Tag", func(ctx context.Context, c paperwork.Clerk) (paperwork.Printable, error) {
		spoken, _, err := c.DepotTongue("", filepath.Join(t.Work.Dir, paperwork.TongueDir))
		if err != nil {
			return nil, err
		}
		return c.ItemPaper(ctx, id, spoken, t.Item.ID)
	})
}
