package console

import (
	"context"
	"fmt"
	"time"

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

// scan says what a scanned code means.
func scan(_ context.Context, p *Program, args []string) error {
	fs := p.flags("scan")
	asJSON := fs.Bool("json", false, "print JSON")
	if err := parse(fs, args, true); err != nil {
		return err
	}
	text := fs.Arg(0)
	if fs.NArg() > 1 { // flags may follow the code
		if err := parse(fs, fs.Args()[1:], false); err != nil {
			return err
		}
	}
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
	if *asJSON {
		return p.print(line)
	}
	fmt.Fprintln(p.Out, line.Says)
	for _, l := range line.Likely {
		fmt.Fprintln(p.Out, "perhaps "+l)
	}
	return nil
}

func dayOf(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format(time.DateOnly)
}
