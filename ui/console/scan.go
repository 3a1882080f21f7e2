package console

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"lungwort/inventory/refusal"
	"lungwort/labels/picture"
	"lungwort/labels/tag"
)

type scanLine struct {
	Kind    string   `json:"kind"`
	Says    string   `json:"says"`
	Ask     string   `json:"ask,omitempty"`
	Tag     string   `json:"tag,omitempty"`
	Serial  string   `json:"serial,omitempty"`
	GTIN    string   `json:"gtin,omitempty"`
	Lot     string   `json:"lot,omitempty"`
	Made    string   `json:"made,omitempty"`
	Expires string   `json:"expires,omitempty"`
	GRAI    string   `json:"grai,omitempty"`
	GIAI    string   `json:"giai,omitempty"`
	Paper   string   `json:"paper,omitempty"`
	Likely  []string `json:"likely,omitempty"`
}

// scan says what a scanned code means, or every code of a picture.
func scan(ctx context.Context, p *Program, args []string) error {
	fs := p.flags("scan")
	asJSON := fs.Bool("json", false, "print JSON")
	photo := fs.String("picture", "", "a photo or scan with codes on it")
	if slices.ContainsFunc(args, func(a string) bool { return strings.HasPrefix(strings.TrimLeft(a, "-"), "picture") }) {
		if err := parse(fs, args, false); err != nil {
			return err
		}
		return p.scanPicture(ctx, *photo, *asJSON)
	}
	if err := parse(fs, args, true); err != nil {
		return err
	}
	text := fs.Arg(0)
	if fs.NArg() > 1 { // flags may follow the code
		if err := parse(fs, fs.Args()[1:], false); err != nil {
			return err
		}
	}
	line := codeOf(text)
	if *asJSON {
		return p.print(line)
	}
	p.sayLine(line)
	return nil
}

// scanPicture says what each code of a picture means.
func (p *Program) scanPicture(ctx context.Context, path string, asJSON bool) error {
	file, err := os.Open(path)
	if err != nil {
		return refusal.New(refusal.NotFound, fmt.Sprintf("The picture %s can't be opened.", filepath.Base(path)), "Check its name.").Because(err)
	}
	defer file.Close()
	texts, err := picture.Read(ctx, file, nil)
	if err != nil {
		return err
	}
	lines := make([]scanLine, len(texts))
	for i, text := range texts {
		lines[i] = codeOf(text)
	}
	if asJSON {
		return p.print(lines)
	}
	for _, line := range lines {
		p.sayLine(line)
	}
	if len(lines) == 0 {
		fmt.Fprintln(p.Out, "no code was found: come closer, hold it flat, give it light")
	}
	return nil
}

// codeOf reads one code.
func codeOf(text string) scanLine {
	read, err := tag.Read(text)
	line := scanLine{
		Kind: string(read.Kind), Says: read.Says, Ask: read.Ask, Serial: read.Serial,
		GTIN: read.GTIN, Lot: read.Lot, Made: dayOf(read.Made), Expires: dayOf(read.Expires),
		GRAI: read.GRAI, GIAI: read.GIAI,
	}
	if read.Tag != "" {
		line.Tag = read.Tag.Printed()
	}
	if read.PaperID != "" {
		line.Paper = read.PaperKind + " " + read.PaperID
	}
	for _, t := range read.Likely {
		line.Likely = append(line.Likely, t.Printed())
	}
	if err != nil {
		line.Says = err.Error()
	}
	return line
}

func (p *Program) sayLine(line scanLine) {
	fmt.Fprintln(p.Out, line.Says)
	for _, l := range line.Likely {
		fmt.Fprintln(p.Out, "perhaps "+l)
	}
}

func dayOf(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format(time.DateOnly)
}
