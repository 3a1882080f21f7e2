package console

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"sync"

	"lungwort/ui/season"
)

// longestSeason is the longest season in weeks: a year.
const longestSeason = 52

// liveSeason lets policies live through a simulated season and compares them.
func liveSeason(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("season")
	var opt season.Options
	fs.IntVar(&opt.Weeks, "weeks", 0, "how many weeks")
	fs.Uint64Var(&opt.Seed, "seed", 1, "which season: the same seed is the same season")
	policy := fs.String("policy", "", "one policy alone: "+strings.Join(season.Policies(), ", "))
	fs.StringVar(&opt.Keep, "keep", "", "folder in which the books are kept")
	asJSON := fs.Bool("json", false, "print JSON")
	if err := parse(fs, args, false); err != nil {
		return err
	}
	if opt.Weeks < 1 || opt.Weeks > longestSeason {
		return misuse{fmt.Sprintf("--weeks is a number from 1 to %d", longestSeason)}
	}
	opt.Policies = season.Policies()
	if *policy != "" {
		if !slices.Contains(opt.Policies, *policy) {
			return misuse{fmt.Sprintf("there is no policy %q: %s", *policy, strings.Join(opt.Policies, ", "))}
		}
		opt.Policies = []string{*policy}
	}
	opt.Tell = p.tellWeeks(opt.Weeks)
	report, err := season.Compare(ctx, opt)
	if err != nil {
		return err
	}
	if *asJSON {
		err = p.print(report)
	} else {
		err = report.Print(p.Out)
	}
	if err == nil && !report.Sound() {
		return errMismatch
	}
	return err
}

// tellWeeks tells on the error output when another week is over.
func (p *Program) tellWeeks(weeks int) func(string, float64) {
	var alone sync.Mutex
	told := make(map[string]int)
	return func(policy string, share float64) {
		alone.Lock()
		defer alone.Unlock()
		if week := int(share * float64(weeks)); week > told[policy] {
			told[policy] = week
			fmt.Fprintf(p.Err, "%s: week %d of %d is over\n", policy, week, weeks)
		}
	}
}
