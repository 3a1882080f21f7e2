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
	Stock string    `json:"stock,omitempty"` // name of the label stock
	DPI   paper.DPI `json:"dpi,omitempty"`
}

// noted is what is remembered of a printer.
type noted struct {
	Loaded
	Office bool `json:"office,omitempty"` // papers other than labels go here
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

// Send prints a file in its own size on a printer; without a page on the paper
// that lies in it. The job's title names no person.
func (p *Printers) Send(ctx context.Context, printer, file string, page paper.Format) error {
	options := []string{"-d", printer, "-t", "Lungwort"}
	if page != (paper.Format{}) {
		options = append(options, "-o", "media="+medium(page))
	}
	_, err := p.run(ctx, "lp", append(options, "-o", "print-scaling=none", "--", file)...)
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
	in := all[printer].Loaded
	return in, in.Stock != "" && err == nil
}

// Remember keeps what was put into a printer.
func (p *Printers) Remember(printer string, in Loaded) error {
	return p.note(func(all map[string]noted) {
		of := all[printer]
		of.Loaded = in
		all[printer] = of
	})
}

// Office returns the printer that papers other than labels go to; empty where
// they open in the viewer.
func (p *Printers) Office() string {
	if p == nil {
		return ""
	}
	all, err := p.read()
	for name, of := range all {
		if of.Office && err == nil {
			return name
		}
	}
	return ""
}

// SetOffice chooses where papers other than labels go; no printer is the
// viewer.
func (p *Printers) SetOffice(printer string) error {
	return p.note(func(all map[string]noted) {
		for name, of := range all {
			of.Office = false
			all[name] = of
		}
		if printer != "" {
			of := all[printer]
			of.Office = true
			all[printer] = of
		}
	})
}

// note changes what is remembered of the printers.
func (p *Printers) note(change func(all map[string]noted)) error {
	all, err := p.read()
	if err != nil {
		all = map[string]noted{} // a damaged note is no reason not to print
	}
	change(all)
	body, err := json.MarshalIndent(all, "", "\t")
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(p.file), 0o700); err != nil {
		return err
	}
	return os.WriteFile(p.file, body, 0o600)
}

func (p *Printers) read() (map[string]noted, error) {
	all := map[string]noted{}
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
