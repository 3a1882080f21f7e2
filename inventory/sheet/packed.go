package sheet

import (
	"fmt"
	"io"
	"strings"

	"lungwort/inventory/refusal"
)

// readPacked reads a workbook or an OpenDocument spreadsheet, both zip files of
// parts.
func readPacked(r *reading, data []byte) ([]Table, error) {
	p, err := openParts(r, data)
	if err != nil {
		return nil, err
	}
	if p.byName["content.xml"] == nil {
		return readWorkbook(p)
	}
	locked, err := p.lockedDocument()
	if err != nil {
		return nil, err
	}
	if locked {
		return nil, protected(r.file)
	}
	return readOpenDocument(p)
}

// otherDocument refuses an OpenDocument file that is no spreadsheet.
func (p *parts) otherDocument() error {
	r, err := p.open("mimetype")
	if err != nil || r == nil {
		return err
	}
	defer r.Close()
	kind, err := io.ReadAll(io.LimitReader(r, 200))
	if err != nil {
		return p.broken(err)
	}
	if !strings.Contains(string(kind), "spreadsheet") {
		return refusal.New(refusal.Foreign, fmt.Sprintf("%q is an OpenDocument file, but no spreadsheet.", p.file), "Choose a spreadsheet (.ods, .xlsx) or a text table (.csv).")
	}
	return nil
}

// lockedDocument reports whether the document's parts are under a password.
func (p *parts) lockedDocument() (bool, error) {
	r, err := p.open("META-INF/manifest.xml")
	if err != nil || r == nil {
		return false, err
	}
	defer r.Close()
	manifest, err := io.ReadAll(io.LimitReader(r, 1<<20))
	return err == nil && strings.Contains(string(manifest), "encryption-data"), p.stopped(err)
}

func (p *parts) stopped(err error) error {
	if err == nil {
		return nil
	}
	return p.broken(err)
}
