package season

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"

	"lungwort/inventory/refusal"
	"lungwort/ui/season/fate"
)

// Options choose a season and who lives through it.
type Options struct {
	Weeks    int
	Seed     uint64
	Policies []string
	Keep     string // folder for the books; empty: they are thrown away
	// Tell is told how far a policy is, from 0 to 1, from several goroutines; may
	// be nil.
	Tell func(policy string, share float64)
}

// Compare lets each policy live through the same season, side by side. Where
// one can't, or ctx ends, nothing is left behind.
func Compare(ctx context.Context, opt Options) (r Report, err error) {
	for _, name := range opt.Policies {
		if opt.Keep != "" && exists(kept(opt.Keep, name)) {
			return r, refusal.New(refusal.Conflict, fmt.Sprintf("%s exists already.", kept(opt.Keep, name)), "Choose another folder for the books.")
		}
	}
	if opt.Keep != "" {
		if err := os.MkdirAll(opt.Keep, 0o755); err != nil {
			return r, err
		}
	}
	aside, err := os.MkdirTemp(opt.Keep, ".season-")
	if err != nil {
		return r, err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(aside)) }()
	s := fate.New(opt.Weeks, fate.Seed(opt.Seed))
	outcomes, err := sideBySide(ctx, aside, s, opt)
	if err != nil {
		return r, err
	}
	if opt.Keep != "" {
		for _, name := range opt.Policies {
			if err := os.Rename(kept(aside, name), kept(opt.Keep, name)); err != nil {
				return r, err
			}
		}
	}
	return report(s, outcomes), nil
}

// kept is where the book of a policy is kept.
func kept(dir, policy string) string { return filepath.Join(dir, policy+".lungwort") }

func exists(path string) bool {
	_, err := os.Lstat(path)
	return err == nil
}

// sideBySide lives the season with each policy. When one fails the others stop.
func sideBySide(ctx context.Context, dir string, s fate.Season, opt Options) ([]Outcome, error) {
	ctx, stop := context.WithCancelCause(ctx)
	defer stop(nil)
	outcomes := make([]Outcome, len(opt.Policies))
	var all sync.WaitGroup
	for i, name := range opt.Policies {
		all.Go(func() {
			tell := func(share float64) {
				if opt.Tell != nil {
					opt.Tell(name, share)
				}
			}
			out, err := Live(ctx, kept(dir, name), s, name, tell)
			if err != nil {
				stop(err)
			}
			outcomes[i] = out
		})
	}
	all.Wait()
	return outcomes, context.Cause(ctx)
}
