package console_test

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"

	"lungwort/ui/console"
)

// TestMain lets the scripts run the real program: each "lungwort …" line is a
// process of its own.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"lungwort": lungwort})
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
		Dir: filepath.Join("testdata", "script"),
		Setup: func(env *testscript.Env) error {
			env.Setenv("HOME", env.WorkDir)
			env.Setenv("XDG_CONFIG_HOME", filepath.Join(env.WorkDir, ".config"))
			return nil
		},
	})
}
