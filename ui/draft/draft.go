// Package draft keeps what is half typed in a private file of this machine, so
// that it is there again after a crash, or after another desk was first.
package draft

import (
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/refusal"
	"lungwort/ui/work"
)

// Form is what stands in a form that was not done with.
type Form struct {
	Room   work.Room          `json:"room"`
	Person inventory.PersonID `json:"person,omitempty"`
	Item   inventory.ItemID   `json:"item,omitempty"`
	Run    inventory.RunID    `json:"run,omitempty"`
	Title  string             `json:"title,omitempty"` // of a small form over the screen; empty: the screen's own
	By     string             `json:"by"`              // who typed
	At     time.Time          `json:"at"`
	Texts  map[string]string  `json:"texts"` // by the names of the fields
}

// Target is the screen the form is on.
func (f Form) Target() work.Target {
	return work.Target{Room: f.Room, Person: f.Person, Item: f.Item, Run: f.Run}
}

// same reports whether two are the same form of the same person's typing.
func (f Form) same(g Form) bool {
	return f.Room == g.Room && f.Person == g.Person && f.Item == g.Item && f.Run == g.Run && f.Title == g.Title && f.By == g.By
}

// Keeper keeps forms in a file that only this user can read.
type Keeper struct {
	file  string
	mu    sync.Mutex
	forms []Form
}

// Open reads what was kept in a file; none is an empty one. A file that can't
// be read is begun anew.
func Open(file string) (*Keeper, error) {
	k := &Keeper{file: file}
	text, err := os.ReadFile(file)
	if errors.Is(err, fs.ErrNotExist) {
		return k, nil
	}
	if err == nil {
		err = json.Unmarshal(text, &k.forms)
	}
	if err != nil {
		k.forms = nil
		return k, refusal.New(refusal.Damaged, "What was half typed can't be read again.", "Type it anew.").Because(err)
	}
	return k, nil
}

// Keep keeps a form in the place of what was kept of it; without texts nothing
// of it is kept.
func (k *Keeper) Keep(f Form) error {
	k.mu.Lock()
	defer k.mu.Unlock()
	before := len(k.forms)
	k.forms = slices.DeleteFunc(k.forms, f.same)
	if len(f.Texts) > 0 {
		k.forms = append(k.forms, f)
	}
	if len(f.Texts) == 0 && len(k.forms) == before {
		return nil
	}
	return k.write()
}

// Find returns what was kept of a form.
func (k *Keeper) Find(f Form) (Form, bool) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if i := slices.IndexFunc(k.forms, f.same); i >= 0 {
		return k.forms[i], true
	}
	return Form{}, false
}

// Of returns what somebody left half typed, the newest first.
func (k *Keeper) Of(by string) []Form {
	k.mu.Lock()
	defer k.mu.Unlock()
	var own []Form
	for _, f := range slices.Backward(k.forms) {
		if f.By == by {
			own = append(own, f)
		}
	}
	return own
}

// write replaces the file whole, so that a crash leaves the one or the other.
func (k *Keeper) write() error {
	text, err := json.Marshal(k.forms)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(k.file), 0o700); err != nil {
		return err
	}
	part := k.file + ".part"
	if err := os.WriteFile(part, text, 0o600); err != nil {
		return err
	}
	return os.Rename(part, k.file)
}
