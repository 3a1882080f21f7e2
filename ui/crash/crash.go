// Package crash writes down that the program met a fault of its own: where, in
// which version, under which reference, and nothing of anybody.
package crash

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"time"

	"lungwort/inventory/refusal"
)

// Report is one fault.
type Report struct {
	Reference string
	At        time.Time
	What      string // the kind of fault, without what the program was saying
	Stack     string
}

// Of returns the report of a fault met at a time. What a panic says may hold a
// name, so only faults of the language itself are quoted; of others the type
// is told.
func Of(fault any, stack []byte, at time.Time) Report {
	what := fmt.Sprintf("a %T", fault)
	if e, ours := fault.(runtime.Error); ours {
		what = e.Error()
	}
	return Report{Reference: reference(at, stack), At: at, What: scrub(what), Stack: scrub(string(stack))}
}

// reference is short enough to be read out on the phone.
func reference(at time.Time, stack []byte) string {
	sum := uint32(2166136261) // FNV-1a
	for _, b := range stack {
		sum = (sum ^ uint32(b)) * 16777619
	}
	return strings.ToUpper(fmt.Sprintf("%s-%04x", at.Format("0102-1504"), sum&0xffff))
}

// said is what a trace quotes of a panic's own words.
var said = regexp.MustCompile(`(?m)^(panic|fatal error|\tpanic): .*$|"[^"\n]*"`)

func scrub(text string) string {
	return said.ReplaceAllStringFunc(text, func(found string) string {
		kind, _, quoted := strings.Cut(found, ": ")
		if quoted && found[0] != '"' {
			return kind + ": (not written down)"
		}
		return `"…"`
	})
}

// prefix begins the name of each report's file.
const prefix = "crash-"

// told ends the name of one that somebody was told of.
const told = ".told"

// Write writes the report into a folder and returns its file.
func (r Report) Write(dir string) (string, error) {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return "", err
	}
	file := filepath.Join(dir, prefix+r.Reference+".txt")
	text := fmt.Sprintf("Lungwort met a fault of its own.\nreference %s\nat        %s\nversion   %s\nsystem    %s/%s, %s\nfault     %s\n\n%s",
		r.Reference, r.At.Format(time.RFC3339), version(), runtime.GOOS, runtime.GOARCH, runtime.Version(), r.What, r.Stack)
	return file, os.WriteFile(file, []byte(text), 0o600)
}

func version() string {
	if info, ok := debug.ReadBuildInfo(); ok {
		for _, s := range info.Settings {
			if s.Key == "vcs.revision" {
				return info.Main.Version + " " + s.Value
			}
		}
		return info.Main.Version
	}
	return "unknown"
}

// Refusal is what a person is told of it.
func (r Report) Refusal() error {
	return refusal.New(refusal.Internal, "The program met a fault of its own, reference "+r.Reference+". Nothing was written.", "Do it once more; if it comes again, tell whoever looks after the program the reference.")
}

// Unseen returns the references of the reports nobody was told of yet, the
// oldest first, and marks them as told.
func Unseen(dir string) []string {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil
	}
	var list []string
	for _, e := range entries {
		name, is := strings.CutPrefix(e.Name(), prefix)
		name, text := strings.CutSuffix(name, ".txt")
		if !is || !text || strings.HasSuffix(name, told) {
			continue
		}
		if os.Rename(filepath.Join(dir, e.Name()), filepath.Join(dir, prefix+name+told+".txt")) == nil {
			list = append(list, name)
		}
	}
	slices.Sort(list)
	return list
}
