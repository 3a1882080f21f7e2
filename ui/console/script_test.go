package console_test

import (
	"context"
	"encoding/csv"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // a script sets a zone by name

	"github.com/rogpeppe/go-internal/testscript"

	"lungwort/inventory/book/booktest"
	"lungwort/ui/console"
)

// TestMain lets the scripts run the real program: each "lungwort …" line is a
// process of its own.
func TestMain(m *testing.M) {
	testscript.Main(booktest.Serving{M: m}, map[string]func(){"lungwort": lungwort})
}

func lungwort() {
	program := &console.Program{
		Out: os.Stdout, Err: os.Stderr, Now: time.Now, User: "script",
		Gallery: func(context.Context, string) error { return nil },
	}
	os.Exit(program.Run(context.Background(), os.Args[1:]))
}

// TestScripts runs the scripts below testdata/script, which read like a
// person's session.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:  filepath.Join("testdata", "script"),
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"exits": exits, "capture": capture, "server": server(t), "every": every},
		Setup: func(env *testscript.Env) error {
			env.Setenv("HOME", env.WorkDir)
			env.Setenv("XDG_CONFIG_HOME", filepath.Join(env.WorkDir, ".config"))
			env.Setenv("NOW", time.Now().UTC().Format(time.RFC3339)) // facts of the script are recorded later
			return nil
		},
	})
}

// exits runs a command that must end with an exit code: exits 2 lungwort …
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE command …")
	}
	err := ts.Exec(args[1], args[2:]...)
	code := 0
	var failed *exec.ExitError
	if errors.As(err, &failed) {
		code = failed.ExitCode()
	}
	if strconv.Itoa(code) != args[0] {
		ts.Fatalf("exit code %d (%v), not %s", code, err, args[0])
	}
}

// server puts the address of a new, empty database into a variable: server BOOK
func server(t *testing.T) func(*testscript.TestScript, bool, []string) {
	return func(ts *testscript.TestScript, neg bool, args []string) {
		if neg || len(args) != 1 {
			ts.Fatalf("usage: server VARIABLE")
		}
		s := booktest.Shared(t)
		ts.Setenv(args[0], s.URL(s.Empty(t)))
	}
}

// capture keeps what the first group of an expression finds on stdout in a
// variable: capture FACT '"id": (\d+)'
func capture(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: capture NAME expression")
	}
	found := regexp.MustCompile(args[1]).FindStringSubmatch(ts.ReadFile("stdout"))
	if len(found) < 2 {
		ts.Fatalf("%q finds nothing on stdout", args[1])
	}
	ts.Setenv(args[0], found[1])
}

// every runs a command for each row of a sheet whose column is empty, with the
// cells of the row in the place of their headings:
// every runs.csv Closed lungwort act visit --run {Run} --person {Person}
func every(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 3 {
		ts.Fatalf("usage: every FILE COLUMN command …")
	}
	rows := csv.NewReader(strings.NewReader(strings.TrimPrefix(ts.ReadFile(args[0]), "\ufeff")))
	rows.FieldsPerRecord = -1
	table, err := rows.ReadAll()
	ts.Check(err)
	for len(table) > 0 && !slices.Contains(table[0], args[1]) {
		table = table[1:] // what stands above the headings
	}
	if len(table) < 2 {
		ts.Fatalf("%s has no rows below a heading %s", args[0], args[1])
	}
	head := table[0]
	for _, row := range table[1:] {
		if row[slices.Index(head, args[1])] != "" {
			continue
		}
		var cells []string
		for i, h := range head {
			cells = append(cells, "{"+h+"}", row[i])
		}
		command := slices.Clone(args[2:])
		for i, word := range command {
			command[i] = strings.NewReplacer(cells...).Replace(word)
		}
		ts.Check(ts.Exec(command[0], command[1:]...))
	}
}
