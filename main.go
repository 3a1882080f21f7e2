// Lungwort keeps the home oxygen of a hospital's patients from running out and
// brings every lent thing home. Without arguments it opens the window; with
// arguments it runs one command.
package main

import (
	"context"
	"fmt"
	"os"
	"os/signal"
	"os/user"
	"path/filepath"
	"runtime/debug"
	"syscall"
	"time"

	"lungwort/ui/console"
	"lungwort/ui/gallery"
	"lungwort/ui/window"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	args := os.Args[1:]
	if len(args) == 0 || (args[0] == "--book" && len(args) == 2) {
		os.Exit(open(ctx, args))
	}
	program := &console.Program{Out: os.Stdout, Err: os.Stderr, Now: time.Now, User: who(), Gallery: drawGallery}
	os.Exit(program.Run(ctx, args))
}

// open opens the window on the book named in args, or on the user's own.
func open(ctx context.Context, args []string) int {
	logCrashes()
	setting := window.Setting{Now: time.Now, By: who(), Demo: makeDemo}
	if len(args) == 2 {
		setting.Book = args[1]
	}
	if err := window.Run(ctx, setting); err != nil {
		fmt.Fprintln(os.Stderr, "lungwort:", err)
		return console.Refused
	}
	return console.Done
}

// makeDemo makes the demo book of the present day.
func makeDemo(ctx context.Context, path string) error {
	return console.MakeDemo(ctx, path, time.Now())
}

// drawGallery draws every screen with the demo scenario.
func drawGallery(ctx context.Context, dir string) error {
	return gallery.Draw(ctx, dir, console.MakeDemo)
}

// who returns the name of the system's user, whom the facts name as the one
// who recorded them.
func who() string {
	u, err := user.Current()
	if err != nil {
		return "unknown user"
	}
	if u.Name != "" {
		return u.Name
	}
	return u.Username
}

// logCrashes sends what a crash prints to a file beside the book. Without a
// folder to write to, it goes to the terminal.
func logCrashes() {
	dir, err := os.UserConfigDir()
	if err != nil {
		return
	}
	dir = filepath.Join(dir, "lungwort")
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return
	}
	file, err := os.OpenFile(filepath.Join(dir, "crash.log"), os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o600)
	if err != nil {
		return
	}
	if debug.SetCrashOutput(file, debug.CrashOptions{}) == nil {
		file.Close() // SetCrashOutput keeps its own handle
	}
}
