package book

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// Copies are the copies a book has made of itself: one a day in a folder, kept
// by a rule.
type Copies struct {
	Dir string
	// Sealed names the age recipients the copies are encrypted to; empty: they
	// are not.
	Sealed []string
	// Prove refuses a copy that does not hold what it should.
	Prove func(ctx context.Context, copied *Book) error
}

// The endings of copies.
const (
	plainCopy  = ".lungwort"
	sealedCopy = ".lungwort.age"
	copyPrefix = "copy-"
)

// Keep makes the copy of the day, unless it is there, and returns its file;
// empty when it was. The copy is opened and proven before it gets its name, and
// then sealed. Copies that the rule does not keep are removed.
func (c Copies) Keep(ctx context.Context, b *Book, now time.Time) (file string, err error) {
	day := now.Format(time.DateOnly)
	there, err := c.days()
	if err != nil {
		return "", err
	}
	if slices.Contains(there, day) {
		return "", nil
	}
	seal, err := Recipients(c.Sealed)
	if err != nil {
		return "", err
	}
	if err := os.MkdirAll(c.Dir, 0o700); err != nil {
		return "", explainFile(c.Dir, err)
	}
	part := filepath.Join(c.Dir, "unfinished"+plainCopy)
	defer func() { err = errors.Join(err, removeIfThere(part)) }()
	if err := removeIfThere(part); err != nil { // of a program that died
		return "", explainFile(part, err)
	}
	if err := c.prove(ctx, b, part); err != nil {
		return "", err
	}
	file = filepath.Join(c.Dir, copyPrefix+day+plainCopy)
	if len(seal) > 0 {
		file = filepath.Join(c.Dir, copyPrefix+day+sealedCopy)
		err = whole(file, func(sealed string) error { return sealTo(part, sealed, seal) })
	} else {
		err = os.Rename(part, file)
	}
	if err != nil {
		return "", explainFile(file, err)
	}
	return file, c.clear(now)
}

// prove writes the copy and holds it against what it should be.
func (c Copies) prove(ctx context.Context, b *Book, part string) (err error) {
	if err := b.Backup(ctx, part); err != nil {
		return err
	}
	copied, err := OpenReadOnly(ctx, part, b.options)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, copied.Close()) }()
	return c.Prove(ctx, copied)
}

// days returns the days there are copies of, oldest first.
func (c Copies) days() ([]string, error) {
	entries, err := os.ReadDir(c.Dir)
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		return nil, explainFile(c.Dir, err)
	}
	var days []string
	for _, e := range entries {
		if day, is := dayOf(e.Name()); is && !slices.Contains(days, day) {
			days = append(days, day)
		}
	}
	return days, nil
}

// dayOf returns the day of a copy by its file name.
func dayOf(name string) (string, bool) {
	day, named := strings.CutPrefix(name, copyPrefix)
	for _, ending := range []string{sealedCopy, plainCopy} {
		if bare, is := strings.CutSuffix(day, ending); named && is {
			_, err := time.Parse(time.DateOnly, bare)
			return bare, err == nil
		}
	}
	return "", false
}

// clear removes the copies the rule does not keep.
func (c Copies) clear(now time.Time) error {
	days, err := c.days()
	if err != nil {
		return err
	}
	for _, day := range Outlived(days, now) {
		for _, ending := range []string{plainCopy, sealedCopy} {
			if err := removeIfThere(filepath.Join(c.Dir, copyPrefix+day+ending)); err != nil {
				return explainFile(c.Dir, err)
			}
		}
	}
	return nil
}

// The rule: every copy of the last two weeks, the first of each week for two
// months, the first of each month for a year. Common practice, no source.
const (
	dailyFor   = 14
	weeklyFor  = 60
	monthlyFor = 366
)

// Outlived returns the days (2006-01-02) whose copies the rule does not keep
// at a time. The newest is always kept.
func Outlived(days []string, now time.Time) []string {
	ordered := slices.Sorted(slices.Values(days))
	var gone []string
	week, month := "", ""
	for i, day := range ordered {
		at, err := time.Parse(time.DateOnly, day)
		if err != nil {
			continue
		}
		old := int(now.Sub(at).Hours() / 24)
		monday := at.AddDate(0, 0, -(int(at.Weekday())+6)%7).Format(time.DateOnly)
		keeps := i == len(ordered)-1 || old <= dailyFor || old <= weeklyFor && monday != week || old <= monthlyFor && day[:7] != month
		week, month = monday, day[:7]
		if !keeps {
			gone = append(gone, day)
		}
	}
	return gone
}

func removeIfThere(path string) error {
	if err := os.Remove(path); err != nil && !errors.Is(err, os.ErrNotExist) {
		return err
	}
	return nil
}
