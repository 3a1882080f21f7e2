package paperwork

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"lungwort/inventory/refusal"
	"lungwort/labels/paper"
)

// Printable is a paper that can be written.
type Printable interface {
	Print(w io.Writer) (paper.Result, error)
}

// Save writes a paper to a file, whole or not at all.
func Save(path string, page Printable) error {
	var buf bytes.Buffer
	if _, err := page.Print(&buf); err != nil {
		return err
	}
	beside, err := os.CreateTemp(filepath.Dir(path), ".printing-*")
	if err != nil {
		return unwritable(path, err)
	}
	defer os.Remove(beside.Name())
	_, err = beside.Write(buf.Bytes())
	if closed := beside.Close(); err == nil {
		err = closed
	}
	if err == nil {
		err = os.Rename(beside.Name(), path)
	}
	if err != nil {
		return unwritable(path, err)
	}
	return nil
}

func unwritable(path string, cause error) error {
	return refusal.New(refusal.ReadOnly, fmt.Sprintf("%s could not be written.", filepath.Base(path)),
		"Close it in other programs, or choose another folder.").Because(cause)
}
