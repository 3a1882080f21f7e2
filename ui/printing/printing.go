// Package printing sends papers straight to the printers of this machine, where
// it has the printing commands of CUPS, and remembers which label paper was last
// put into each printer. Where it has none there are no printers, and papers open
// in the viewer as ever.
package printing

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"

	"lungwort/inventory/refusal"
	"lungwort/labels/paper"
)

// Loaded is what was last put into a printer.
type Loaded struct {
	Stock string    `json:"stock"` // name of the label stock
	DPI   paper.DPI `json:"dpi"`
}

// Printers are the printers of this machine. A nil value has none.
type Printers struct {
	file string // where it is remembered what is in each
	run  func(ctx context.Context, name string, args ...string) (string, error)
}

// patience is how long a printing command may take before it is given up: a
// network printer that is off must not hold anybody.
const patience = 10 * time.Second

// New returns the printers of this machine; what is in each is remembered in a
// file of the person's own.
func New(file string) *Printers { return &Printers{file, command} }

// DefaultFile is where it is remembered what is in each printer.
func DefaultFile() (string, error) {
	dir, err := os.UserConfigDir()
	return filepath.Join(dir, "lungwort", "printers.json"), err
}

func command(ctx context.Context, name string, args ...string) (string, error) {
	path, err := exec.LookPath(name)
	if err != nil {
		return "", err
	}
	ctx, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	cmd := exec.CommandContext(ctx, path, args...)
	cmd.Env = append(os.Environ(), "LC_ALL=C")
	out, err := cmd.Output()
	return string(out), err
}

// Names returns the printers there are; none where the commands are missing or
// don't answer.
func (p *Printers) Names(ctx context.Context) []string {
	if p == nil {
		return nil
	}
	out, err := p.run(ctx, "lpstat", "-e")
	if err != nil {
		return nil
	}
	return strings.Fields(out)
}

// Send prints a file in its own size on a printer. The job's title names no
// person.
func (p *Printers) Send(ctx context.Context, printer, file string, page paper.Format) error {
	_, err := p.run(ctx, "lp", "-d", printer, "-t", "Lungwort", "-o", "media="+medium(page), "-o", "print-scaling=none", "--", file)
	if err != nil {
		return refusal.New(refusal.Unready, fmt.Sprintf("The printer %s did not take the paper.", printer),
			"It is in "+filepath.Dir(file)+": open it there, or look after the printer.").Because(err)
	}
	return nil
}

// medium is how CUPS calls a page: by name, or by its size.
func medium(page paper.Format) string {
	if page == paper.A4 || page == paper.Letter {
		return page.Name
	}
	return fmt.Sprintf("Custom.%gx%gmm", page.Width, page.Height)
}

// Loaded returns what was last put into a printer, and whether that is known.
func (p *Printers) Loaded(printer string) (Loaded, bool) {
	if p == nil {
		return Loaded{}, false
	}
	all, err := p.read()
	in, known := all[printer]
	return in, known && err == nil
}

// Remember keeps what was put into a printer.
func (p *Printers) Remember(printer string, in Loaded) error {
	all, err := p.read()
	if err != nil {
		all = map[string]Loaded{} // a damaged note is no reason not to print
	}
	all[printer] = in
	body, err := json.MarshalIndent(all, "", "\t")
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(p.file), 0o700); err != nil {
		return err
	}
	return os.WriteFile(p.file, body, 0o600)
}

func (p *Printers) read() (map[string]Loaded, error) {
	all := map[string]Loaded{}
	body, err := os.ReadFile(p.file)
	if errors.Is(err, fs.ErrNotExist) {
		return all, nil
	}
	if err != nil {
		return all, err
	}
	err = json.Unmarshal(body, &all)
	return all, err
}
