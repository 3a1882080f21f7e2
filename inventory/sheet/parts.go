package sheet

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"

	"lungwort/inventory/refusal"
)

// A part packed more tightly than this, once it is large, holds nothing that
// a person typed: it is made to fill the memory of whoever unpacks it.
const (
	packedLarge   = 64 << 20
	packedTightly = 200
)

// errUnpackedTooLarge ends the reading of a part that outgrows its budget,
// whatever size its header claims.
var errUnpackedTooLarge = errors.New("the parts outgrow the limit")

// parts is a workbook's zip file, read part by part and never as a whole.
type parts struct {
	*reading
	byName map[string]*zip.File
	all    int64 // bytes that the parts say they unpack to
	left   int64 // bytes that may still be unpacked
}

func openParts(r *reading, data []byte) (*parts, error) {
	archive, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, damaged(r.file, err)
	}
	p := &parts{reading: r, byName: make(map[string]*zip.File, len(archive.File)), left: maxUnpackedBytes}
	for _, f := range archive.File {
		p.byName[strings.ToLower(strings.ReplaceAll(f.Name, `\`, "/"))] = f
		p.all += int64(f.UncompressedSize64)
		if f.UncompressedSize64 > packedLarge && f.UncompressedSize64/packedTightly > f.CompressedSize64 {
			return nil, refusal.New(refusal.Invalid, fmt.Sprintf("%q unpacks to far more than a spreadsheet holds; it may be made to harm.", r.file),
				"Ask whoever sent it what it is. If it is yours, save only the sheet you need and choose that file.")
		}
	}
	return p, p.kind()
}

// kind refuses packed files that are not an xlsx or xlsm workbook.
func (p *parts) kind() error {
	has := func(part string) bool { return p.byName[part] != nil }
	switch {
	case has("xl/workbook.xml"):
		return nil
	case has("xl/workbook.bin"):
		return refusal.New(refusal.Foreign, fmt.Sprintf("%q is a binary workbook (.xlsb).", p.file), saveAnew)
	case has("word/document.xml"):
		return notASheet(p.file, "a text document")
	case has("ppt/presentation.xml"):
		return notASheet(p.file, "a presentation")
	case has("content.xml"):
		return p.otherDocument()
	case has("index/document.iwa"):
		return refusal.New(refusal.Foreign, fmt.Sprintf("%q is a Numbers file.", p.file), "Open it there, export it to Excel (.xlsx), and choose that file.")
	case has("[content_types].xml"):
		return damaged(p.file, errors.New("no workbook part"))
	}
	return notASheet(p.file, "a packed file")
}

// open returns the part, or nil when the workbook has none of that name.
func (p *parts) open(name string) (io.ReadCloser, error) {
	f := p.byName[strings.ToLower(name)]
	if f == nil {
		return nil, nil
	}
	r, err := f.Open()
	if err != nil {
		return nil, damaged(p.file, err)
	}
	return &rationed{ReadCloser: r, parts: p}, nil
}

// decode reads a small part into a value; a missing part leaves it as it is.
func (p *parts) decode(name string, into any) error {
	r, err := p.open(name)
	if err != nil || r == nil {
		return err
	}
	defer r.Close()
	if err := xml.NewDecoder(r).Decode(into); err != nil {
		return p.broken(err)
	}
	return nil
}

// broken says why a part could not be read to its end.
func (p *parts) broken(err error) error {
	var said *refusal.Error
	if errors.As(err, &said) {
		return err
	}
	if errors.Is(err, errUnpackedTooLarge) {
		return tooLarge(p.file)
	}
	if stopped := p.ctx.Err(); stopped != nil {
		return stopped
	}
	return damaged(p.file, err)
}

// rationed counts what is unpacked against a budget all parts share, and
// stops when the context does.
type rationed struct {
	io.ReadCloser
	parts *parts
}

func (r *rationed) Read(b []byte) (int, error) {
	if err := r.parts.reached(maxUnpackedBytes-r.parts.left, r.parts.all); err != nil {
		return 0, err
	}
	n, err := r.ReadCloser.Read(b)
	if r.parts.left -= int64(n); r.parts.left < 0 {
		return n, errUnpackedTooLarge
	}
	return n, err
}

// partPath resolves the target of a relationship of the workbook part.
func partPath(target string) string {
	if rooted, found := strings.CutPrefix(target, "/"); found {
		return rooted
	}
	return path.Join("xl", target)
}
