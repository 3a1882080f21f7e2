package window

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime/debug"

	"lungwort/ui/crash"
	"lungwort/ui/draft"
)

// runs runs the window. A fault of the program ends it with a report: the
// window can't go on, for nobody knows what it left half done.
func (p *program) runs(window func()) {
	defer func() {
		if fault := recover(); fault != nil {
			p.failed = errors.Join(p.failed, p.report(fault))
		}
	}()
	window()
}

// report writes a fault down and returns what is told of it.
func (p *program) report(fault any) error {
	r := crash.Of(fault, debug.Stack(), p.now())
	if _, err := r.Write(p.private()); err != nil {
		return errors.Join(r.Refusal(), err)
	}
	return r.Refusal()
}

// private is the folder of this user for what nobody else is to read: reports
// and what is half typed.
func (p *program) private() string {
	if p.setting.Private != "" {
		return p.setting.Private
	}
	dir, err := os.UserConfigDir()
	if err != nil {
		dir = os.TempDir()
	}
	return filepath.Join(dir, "lungwort")
}

// keepDrafts keeps what is half typed in this book, and offers what was left;
// after a fault it says so first.
func (p *program) keepDrafts() {
	sum := sha256.Sum256([]byte(p.book.Path()))
	keeper, err := draft.Open(filepath.Join(p.private(), fmt.Sprintf("half-typed-%x.json", sum[:6])))
	if err != nil {
		p.frame.refuse(err)
	}
	p.frame.KeepDrafts(keeper)
	first := ""
	if met := crash.Unseen(p.private()); len(met) > 0 {
		first = "The program met a fault of its own and ended, reference " + met[len(met)-1] + ". "
	}
	p.frame.drafts.offer(first)
}
