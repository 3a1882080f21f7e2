package sheet

import (
	"bytes"
	"errors"
	"fmt"
	"runtime"
	"strings"
	"syscall"

	"lungwort/inventory/refusal"
)

const saveAnew = "Open it in a spreadsheet program, choose Save As, pick Excel Workbook (.xlsx), and choose that file."

// signatures are the first bytes of files that people take for a spreadsheet.
var signatures = []struct{ begins, is string }{
	{"%PDF", "a PDF, which shows a table but does not hold one"},
	{"\x89PNG", "a picture"},
	{"\xff\xd8\xff", "a picture"},
	{"GIF8", "a picture"},
	{"II*\x00", "a picture"},
	{"MM\x00*", "a picture"},
	{"{\\rtf", "a text document"},
	{"\x1f\x8b", "a packed file"},
	{"Rar!", "a packed file"},
	{"7z\xbc\xaf", "a packed file"},
	{"PK\x05\x06", "an empty packed file"},
	{"SQLite format 3\x00", "a database"},
	{"MZ", "a program"},
	{"\x7fELF", "a program"},
}

// foreign refuses what is neither text nor a workbook of today.
func foreign(name string, data []byte) error {
	if bytes.HasPrefix(data, []byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1")) {
		return compound(name, data)
	}
	head := string(data[:min(len(data), 4096)])
	for _, s := range signatures {
		if strings.HasPrefix(head, s.begins) && (len(s.begins) > 2 || strings.ContainsRune(head, 0)) {
			return notASheet(name, s.is)
		}
	}
	if strings.Contains(head, "urn:schemas-microsoft-com:office:spreadsheet") {
		return refusal.New(refusal.Foreign, fmt.Sprintf("%q is in the XML spreadsheet format of 2003.", name), saveAnew)
	}
	if strings.Contains(head, "urn:oasis:names:tc:opendocument") {
		return refusal.New(refusal.Foreign, fmt.Sprintf("%q is a flat OpenDocument file (.fods).", name), saveAnew)
	}
	if strings.HasPrefix(head, "MIME-Version:") {
		return refusal.New(refusal.Foreign, fmt.Sprintf("%q is a web archive.", name), saveAnew)
	}
	return nil
}

// compound tells apart the files that share the old compound container: a
// workbook under a password, an old workbook, anything else.
func compound(name string, data []byte) error {
	if bytes.Contains(data, utf16Text("EncryptedPackage")) {
		return protected(name)
	}
	if bytes.Contains(data, utf16Text("Workbook")) || bytes.Contains(data, utf16Text("Book")) {
		return refusal.New(refusal.Foreign, fmt.Sprintf("%q is in the old Excel format (.xls).", name), saveAnew)
	}
	return refusal.New(refusal.Foreign, fmt.Sprintf("%q is an old office file without a spreadsheet in it.", name), saveAnew)
}

func protected(name string) error {
	return refusal.New(refusal.Unready, fmt.Sprintf("%q is protected with a password.", name),
		"Open it in the spreadsheet program, remove the password, save it, and choose it again.")
}

func notASheet(name, is string) error {
	return refusal.New(refusal.Foreign, fmt.Sprintf("%q is %s.", name, is),
		"Choose a spreadsheet (.xlsx) or a text table (.csv).")
}

func damaged(name string, cause error) error {
	return refusal.New(refusal.Damaged, fmt.Sprintf("%q is damaged: parts of it can't be read.", name),
		"Open it in the spreadsheet program, let it repair the file, save it under a new name, and choose that one.").Because(cause)
}

func utf16Text(s string) []byte {
	b := make([]byte, 0, 2*len(s))
	for _, c := range []byte(s) {
		b = append(b, c, 0)
	}
	return b
}

// heldOpen recognises what Windows says of a file another program holds:
// ERROR_SHARING_VIOLATION and ERROR_LOCK_VIOLATION.
func heldOpen(err error) bool {
	const sharingViolation, lockViolation = syscall.Errno(32), syscall.Errno(33)
	return runtime.GOOS == "windows" && (errors.Is(err, sharingViolation) || errors.Is(err, lockViolation))
}
