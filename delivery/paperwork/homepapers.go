package paperwork

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/labels/tongue"
)

// Asked is a paper about one person, as it was asked for.
type Asked struct {
	Person inventory.PersonID
	By     string // who prints it
	Tongue tongue.Tongue
}

// HomePaper is one paper about a person or the home.
type HomePaper struct {
	ID, Name string
	Spoken   bool // it speaks the household's language
	make     func(context.Context, Clerk, store.PersonPage, delivery.Watch, Asked) (Printable, error)
}

// The papers that screens ask for by name.
const (
	ReturnReceipt = "return-receipt"
	RecallLetter  = "recall-letter"
)

// HomePapers are the papers of a person, in the order in which they are needed.
var HomePapers = []HomePaper{
	{"leaflet", "Household leaflet", true, func(_ context.Context, c Clerk, page store.PersonPage, w delivery.Watch, a Asked) (Printable, error) {
		return c.Leaflet(page, w, a.Tongue), nil
	}},
	{"sign", "Sign for the door", true, func(_ context.Context, c Clerk, page store.PersonPage, _ delivery.Watch, a Asked) (Printable, error) {
		return c.DoorSign(page.Person.ID, a.Tongue), nil
	}},
	{"hand-over", "Hand-over receipt", true, func(_ context.Context, c Clerk, page store.PersonPage, w delivery.Watch, a Asked) (Printable, error) {
		return c.HandOver(page, w, a), nil
	}},
	{"delivery-proof", "Proof of delivery", true, func(_ context.Context, c Clerk, page store.PersonPage, _ delivery.Watch, a Asked) (Printable, error) {
		return c.DeliveryProof(page, a.Tongue)
	}},
	{ReturnReceipt, "Receipt for what came back", true, func(ctx context.Context, c Clerk, page store.PersonPage, _ delivery.Watch, a Asked) (Printable, error) {
		return c.ReturnReceipt(ctx, page, a)
	}},
	{"collect-letter", "Letter: what can come home", true, func(ctx context.Context, c Clerk, page store.PersonPage, _ delivery.Watch, a Asked) (Printable, error) {
		return c.CollectLetter(ctx, page, a.Tongue, false)
	}},
	{"value-letter", "Last letter, with values", true, func(ctx context.Context, c Clerk, page store.PersonPage, _ delivery.Watch, a Asked) (Printable, error) {
		return c.CollectLetter(ctx, page, a.Tongue, true)
	}},
	{RecallLetter, "Letter about a recall", true, func(_ context.Context, c Clerk, page store.PersonPage, _ delivery.Watch, a Asked) (Printable, error) {
		return c.RecallLetter(page, a.Tongue)
	}},
}

// HomePaper returns a paper about a person by its id.
func (c Clerk) HomePaper(ctx context.Context, id string, a Asked) (Printable, error) {
	for _, p := range HomePapers {
		if p.ID != id {
			continue
		}
		page, err := c.book.Page(ctx, a.Person, c.Now)
		if err != nil {
			return nil, err
		}
		if page.Person.Erased {
			return nil, refusal.New(refusal.Conflict, "What identified this person is erased.", "There is nobody to give a paper to.")
		}
		watch, err := c.book.WatchOne(ctx, a.Person, c.Now)
		if err != nil {
			return nil, err
		}
		return p.make(ctx, c, page, watch, a)
	}
	return nil, refusal.New(refusal.NotFound, fmt.Sprintf("There is no paper %q.", id), "")
}

// Spoken reports whether a paper speaks the household's language.
func Spoken(id string) bool {
	return slices.ContainsFunc(HomePapers, func(p HomePaper) bool { return p.ID == id && p.Spoken })
}

// Tongue returns the language to speak to a person in: the one that is named,
// else the one in the book, with a word where that can't be done or nobody has
// approved it. The folder may hold language files of the programme's own.
func (c Clerk) Tongue(ctx context.Context, who inventory.PersonID, named, folder string) (tongue.Tongue, string, error) {
	all, err := Tongues(folder)
	if err != nil {
		return tongue.Tongue{}, "", err
	}
	if named != "" {
		if _, err := ChooseTongue(all, named); err != nil {
			return tongue.Tongue{}, "", err
		}
	} else {
		page, err := c.book.Page(ctx, who, c.Now)
		if err != nil {
			return tongue.Tongue{}, "", err
		}
		named = page.Person.Language
	}
	t, note := SpokenBy(all, named)
	return t, note, nil
}

// SaveHomePaper writes a paper about a person into a folder, in the person's
// language unless another is named, and returns the file with a word on the
// language. The file's name names nobody.
func (c Clerk) SaveHomePaper(ctx context.Context, dir, id string, a Asked, named string) (file, note string, err error) {
	if a.Tongue, note, err = c.Tongue(ctx, a.Person, named, filepath.Join(dir, TongueDir)); err != nil {
		return "", "", err
	}
	page, err := c.HomePaper(ctx, id, a)
	if err != nil {
		return "", "", err
	}
	if !Spoken(id) {
		note = ""
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return "", "", unwritable(dir, err)
	}
	file = filepath.Join(dir, fmt.Sprintf("%s-%s-%s.pdf", id, a.Person, c.Now.Format("20060102-1504")))
	return file, note, Save(file, page)
}

// LeafletForStop writes the leaflet of a person something is to be brought to,
// in the language of the book, and returns the file; no file where nothing is
// brought.
func (c Clerk) LeafletForStop(ctx context.Context, dir string, who inventory.PersonID, file string) (string, error) {
	page, err := c.book.Page(ctx, who, c.Now)
	if err != nil {
		return "", err
	}
	if !slices.ContainsFunc(page.Care.Tasks, func(t delivery.OpenTask) bool { return t.Tasked.Task == delivery.Deliver }) {
		return "", nil
	}
	all, err := Tongues(filepath.Join(dir, TongueDir))
	if err != nil {
		return "", err
	}
	watch, err := c.book.WatchOne(ctx, who, c.Now)
	if err != nil {
		return "", err
	}
	spoken, _ := SpokenBy(all, page.Person.Language)
	return file, Save(file, c.Leaflet(page, watch, spoken))
}
