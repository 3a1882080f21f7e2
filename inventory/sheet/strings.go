package sheet

import (
	"encoding/xml"
	"io"
	"strconv"
	"strings"
)

// sharedText is a text that many cells may show. It is cleaned once, not once
// for each of them.
type sharedText struct{ raw, shown string }

// readStrings reads the table of texts that the cells of all sheets share.
func readStrings(p *parts) ([]sharedText, error) {
	r, err := p.open("xl/sharedStrings.xml")
	if err != nil || r == nil {
		return nil, err
	}
	defer r.Close()
	var all []sharedText
	var text richText
	d := xml.NewDecoder(r)
	for {
		token, err := d.RawToken()
		if err == io.EOF {
			return all, nil
		}
		if err != nil {
			return nil, p.broken(err)
		}
		if text.take(token) {
			continue
		}
		if end, ok := token.(xml.EndElement); ok && end.Name.Local == "si" {
			raw := text.done()
			if all = append(all, sharedText{raw, clean(raw)}); len(all) > maxCells {
				return nil, tooLarge(p.file)
			}
		}
	}
}

// richText gathers the text of a string item over its runs, without the
// reading aids that stand beside East Asian words.
type richText struct {
	text     strings.Builder
	inText   bool
	phonetic bool
}

// take reports whether the token belongs to the text.
func (t *richText) take(token xml.Token) bool {
	switch token := token.(type) {
	case xml.StartElement:
		switch token.Name.Local {
		case "t":
			t.inText = true
			return true
		case "rPh":
			t.phonetic = true
			return true
		}
	case xml.EndElement:
		switch token.Name.Local {
		case "t":
			t.inText = false
			return true
		case "rPh":
			t.phonetic = false
			return true
		}
	case xml.CharData:
		if t.inText && !t.phonetic {
			t.text.Write(token)
		}
		return t.inText
	}
	return false
}

func (t *richText) done() string {
	s := unescaped(t.text.String())
	t.text.Reset()
	return s
}

// unescaped resolves the format's own escapes, as _x000D_ for a return.
func unescaped(s string) string {
	if !strings.Contains(s, "_x") {
		return s
	}
	var b strings.Builder
	for {
		i := strings.Index(s, "_x")
		if i < 0 || len(s) < i+7 {
			b.WriteString(s)
			return b.String()
		}
		code, err := strconv.ParseUint(s[i+2:i+6], 16, 16)
		if err != nil || s[i+6] != '_' {
			b.WriteString(s[:i+2])
			s = s[i+2:]
			continue
		}
		b.WriteString(s[:i])
		b.WriteRune(rune(code))
		s = s[i+7:]
	}
}
