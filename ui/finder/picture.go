package finder

import (
	"context"
	"os"
	"path/filepath"

	"lungwort/delivery/store"
	"lungwort/inventory/refusal"
	"lungwort/labels/picture"
)

// Code is one code of a picture, and what it names.
type Code struct {
	Text string
	Hit  Hit // empty where the book has nothing of that name
}

// Known reports whether the code names something.
func (c Code) Known() bool { return c.Hit.ID != "" }

// Picture returns the codes of a picture in a file, each with what it names.
func Picture(ctx context.Context, desk *store.Desk, path string, progress func(done, all int)) ([]Code, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, refusal.New(refusal.NotFound, "The picture "+filepath.Base(path)+" can't be opened.", "Choose it again.").Because(err)
	}
	defer file.Close()
	texts, err := picture.Read(ctx, file, progress)
	if err != nil {
		return nil, err
	}
	codes := make([]Code, len(texts))
	for i, text := range texts {
		codes[i].Text = text
		hits, err := Anything(ctx, desk, text, 1)
		if err != nil {
			return nil, err
		}
		if len(hits) > 0 && hits[0].Exact {
			codes[i].Hit = hits[0]
		}
	}
	return codes, nil
}
