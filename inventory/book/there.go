package book

import (
	"os"

	"lungwort/inventory/refusal"
)

// remember notes which file lies at the path of the book that was opened.
func (b *Book) remember() error {
	info, err := os.Stat(b.Path())
	b.file = info
	return err
}

// there refuses when another file, or none, lies at the path of the book by
// now: what is written would go into a file that nobody finds again, and what
// is read might be of two. Programs that keep folders alike on several machines
// do such things.
func (b *Book) there() error {
	if b.file == nil {
		return nil
	}
	now, err := os.Stat(b.Path())
	if err != nil || !os.SameFile(b.file, now) {
		return gone(b.Path()).Because(err)
	}
	return nil
}

func gone(path string) *refusal.Error {
	return refuse(refusal.Damaged, "Nothing more is written. Close the program, keep every file of that name, put the right one or the latest copy back, and open it; then look whether your last act is in it.",
		"The file of the book %s was moved or replaced while it was open.", path)
}
