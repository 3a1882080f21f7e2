// Package console is the program on a command line: one command for each thing
// automation, tests and support need. The commands read and act through the
// same desk as the window.
package console

import (
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory/book"
	"lungwort/inventory/refusal"
	"lungwort/inventory/wall"
)

// The exit codes of the program.
const (
	Done    = 0 // done; bad news and open questions are answers, not errors
	Refused = 1 // nothing was done, or the audit found mismatches
	Misused = 2 // wrong usage
)

// Program is what the commands need from outside.
type Program struct {
	Out, Err io.Writer
	Now      func() time.Time
	User     string // who acts, for the facts of a book that asks for no name
	// Gallery draws every screen into a folder.
	Gallery func(ctx context.Context, dir string) error

	signIn signIn
}

// command is one command of the program.
type command struct {
	name string
	does string
	run  func(ctx context.Context, p *Program, args []string) error
}

func commands() []command {
	return []command{
		{"demo", "write the demo scenario into a new book", demo},
		{"day", "do the day's work: watch list, run sheets, labels, night pack", day},
		{"gas", "say how long a cylinder lasts", gasLeft},
		{"watch", "list every person, most urgent first", watch},
		{"act", "do one act; 'act --list' names them", act},
		{"answer", "answer one urgent question; 'answer --list' names them", answer},
		{"outage", "cover of every home without power, cylinders needed, who must relocate", outage},
		{"outlook", "say whether each kind of thing lasts for two weeks, and what helps most", stockOutlook},
		{"measures", "say what the programme is judged by, with what is not finished", judged},
		{"season", "let policies live through a simulated season with this program, and compare them", liveSeason},
		{"route", "solve a file in Solomon's text format", solveRoute},
		{"intake", "take in spreadsheets", takeIn},
		{"export", "write a spreadsheet", export},
		{"paper", "write one paper for a person: leaflet, sign for the door, letters", printPaper},
		{"scan", "say what a scanned code means", scan},
		{"recall", "find what a recall names: now and ever", recall},
		{"rental", "say what is owed for rented cylinders; check an invoice", rental},
		{"audit", "rebuild every derived state and compare", audit},
		{"backup", "write a verified copy of the book", backup},
		{"copy", "copy a book into a new one, file or server, and prove the copy", copyBook},
		{"restore", "put a verified copy in the book's place", restore},
		{"roles", "print the SQL that makes the database of a book on a server, and its roles", roles},
		{"gallery", "draw every screen, no display needed", gallery},
	}
}

// misuse is a wrong call of the program.
type misuse struct{ says string }

func (m misuse) Error() string { return m.says }

// errMismatch is the audit's bad news: printed already, exit 1.
var errMismatch = errors.New("mismatches")

// Run runs one command and returns the exit code.
func (p *Program) Run(ctx context.Context, args []string) int {
	if len(args) == 0 || args[0] == "help" || args[0] == "--help" || args[0] == "-h" {
		p.help()
		return Done
	}
	all := commands()
	i := slices.IndexFunc(all, func(c command) bool { return c.name == args[0] })
	if i < 0 {
		fmt.Fprintf(p.Err, "lungwort: there is no command %q; 'lungwort help' lists them\n", args[0])
		return Misused
	}
	err := all[i].run(ctx, p, args[1:])
	var wrong misuse
	switch {
	case err == nil, errors.Is(err, flag.ErrHelp):
		return Done
	case errors.As(err, &wrong):
		fmt.Fprintf(p.Err, "lungwort %s: %s\n", args[0], wrong.says)
		return Misused
	case errors.Is(err, errMismatch):
		return Refused
	}
	fmt.Fprintf(p.Err, "lungwort %s: %s\n", args[0], says(err))
	return Refused
}

// says returns what a person on a command line is told: a refusal's words, or
// the whole error, since there is no other place to look.
func says(err error) string {
	var no *refusal.Error
	if errors.As(err, &no) {
		return no.Error()
	}
	return err.Error()
}

func (p *Program) help() {
	fmt.Fprintln(p.Out, "lungwort            open the window")
	for _, c := range commands() {
		fmt.Fprintf(p.Out, "lungwort %-10s %s\n", c.name, c.does)
	}
	fmt.Fprintln(p.Out, "\n--book takes a file, or the address of a book several desks share: postgres://ines@server.example/lungwort.")
	fmt.Fprintln(p.Out, "A book that asks for a name takes --user NAME, with the passphrase in --passphrase-file, LUNGWORT_PASSPHRASE or asked for.")
	fmt.Fprintln(p.Out, "Times are RFC 3339 with offset; quantities carry their unit (500psi, 35bar, 21C; a bare flow is L/min).")
}

// flags returns a flag set of a command that speaks through the program.
func (p *Program) flags(name string) *flag.FlagSet {
	fs := flag.NewFlagSet(name, flag.ContinueOnError)
	fs.SetOutput(p.Err)
	fs.StringVar(&p.signIn.user, "user", p.signIn.user, "who signs in, where the book asks for a name")
	fs.StringVar(&p.signIn.file, "passphrase-file", p.signIn.file, "file whose first line is the passphrase; - reads it from what comes in")
	return fs
}

// parse parses flags; what is left over is misuse unless the command takes
// arguments.
func parse(fs *flag.FlagSet, args []string, takes bool) error {
	if err := fs.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return err
		}
		return misuse{err.Error()}
	}
	if !takes && fs.NArg() > 0 {
		return misuse{fmt.Sprintf("%q is not understood", fs.Arg(0))}
	}
	return nil
}

// moment is a flag that holds an RFC 3339 time with its offset.
type moment struct{ time.Time }

func (m *moment) String() string { return "" }

func (m *moment) Set(text string) error {
	t, err := parseTime(text)
	m.Time = t
	return err
}

// parseTime reads a time with its offset. A named zone never enters a fact.
func parseTime(text string) (time.Time, error) {
	t, err := time.Parse(time.RFC3339, text)
	if err != nil {
		return time.Time{}, fmt.Errorf("%q is no time with offset, as 2026-11-24T16:20:00-03:00", text)
	}
	return wall.Fixed(t), nil
}

// here returns the present in a fixed offset.
func (p *Program) here() time.Time {
	return wall.Fixed(p.Now().Truncate(time.Second))
}

// onTheWall returns a time on the programme's clock, or in the zone of this
// machine where that has the same offset then: a list knows no offset, and the
// zone knows when clocks change.
func (p *Program) onTheWall(settings delivery.Programme, t time.Time) time.Time {
	if settings.TimeZone != "" {
		return settings.OnTheWall(t)
	}
	local := t.In(p.Now().Location())
	_, there := t.Zone()
	if _, here := local.Zone(); here != there {
		return t
	}
	return local
}

// on is or on the programme's clock, where it names a time zone.
func (m moment) on(ctx context.Context, p *Program, desk *store.Desk) (time.Time, error) {
	settings, err := desk.Programme(ctx)
	return settings.OnTheWall(m.or(p)), err
}

// or returns the time of the flag, or the present.
func (m moment) or(p *Program) time.Time {
	if m.IsZero() {
		return p.here()
	}
	return m.Time
}

// options are a book's options at the program's clock.
func (p *Program) options() book.Options {
	return book.Options{Now: p.Now, Sets: store.Migrations()}
}

// path returns the book of the flag, or the one the window uses.
func path(flag string) (string, error) {
	if flag != "" {
		return flag, nil
	}
	return book.DefaultPath()
}

// looking opens the book to read only and gives a desk on it. A book that
// must be brought up to date first is opened to write.
func (p *Program) looking(ctx context.Context, flag string, do func(*store.Desk) error) error {
	file, err := path(flag)
	if err != nil {
		return err
	}
	b, err := book.OpenReadOnly(ctx, file, p.options())
	if refusal.KindOf(err) == refusal.Unready {
		b, err = book.Open(ctx, file, p.options())
	}
	if err != nil {
		return err
	}
	defer b.Close()
	desk := store.NewDesk(b)
	if err := p.enter(ctx, desk); err != nil {
		return err
	}
	return do(desk)
}

// lookingBack is looking, at what the book knew at an instant where one is
// given.
func (p *Program) lookingBack(ctx context.Context, flag string, known moment, do func(*store.Desk) error) error {
	if known.IsZero() {
		return p.looking(ctx, flag, do)
	}
	return p.looking(ctx, flag, func(desk *store.Desk) (err error) {
		folder, err := os.MkdirTemp("", "lungwort-past-")
		if err != nil {
			return err
		}
		defer func() { err = errors.Join(err, os.RemoveAll(folder)) }()
		past, err := desk.Past(ctx, filepath.Join(folder, "past.lungwort"), known.Time, p.options())
		if err != nil {
			return err
		}
		defer func() { err = errors.Join(err, past.Close()) }()
		return do(desk.On(past))
	})
}

// writing opens the book to write and gives a desk on it.
func (p *Program) writing(ctx context.Context, flag string, do func(*store.Desk) error) (err error) {
	file, err := path(flag)
	if err != nil {
		return err
	}
	b, err := book.Open(ctx, file, p.options())
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, b.Close()) }()
	desk := store.NewDesk(b)
	if err := p.enter(ctx, desk); err != nil {
		return err
	}
	return do(desk)
}

// print writes v as JSON.
func (p *Program) print(v any) error {
	enc := json.NewEncoder(p.Out)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	return enc.Encode(v)
}
