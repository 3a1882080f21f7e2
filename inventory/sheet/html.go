package sheet

import (
	"fmt"
	"html"
	"strconv"
	"strings"
)

// looksLikeHTML reports whether the text is a web page with a table, as some
// programs write under the name .xls.
func looksLikeHTML(text string) bool {
	head := strings.ToLower(strings.TrimSpace(text[:min(len(text), 1024)]))
	return strings.HasPrefix(head, "<") &&
		(strings.Contains(head, "<html") || strings.Contains(head, "<table") || strings.HasPrefix(head, "<!doctype html"))
}

// page collects the tables of a web page.
type page struct {
	*reading
	tables []Table
	depth  int // of nested tables; inner ones are text of the outer cell
	cells  []Cell
	inCell bool
	text   strings.Builder
	spans  int
	row    int // rows seen in the table, blank ones included
	budget cellBudget
}

func readHTML(r *reading, text string) ([]Table, error) {
	p := &page{reading: r, budget: cellBudget{file: r.file}}
	for all := int64(len(text)); len(text) > 0; {
		if err := r.reached(all-int64(len(text)), all); err != nil {
			return nil, err
		}
		open := strings.IndexByte(text, '<')
		if open < 0 {
			break
		}
		if p.inCell {
			p.text.WriteString(text[:open])
		}
		text = text[open:]
		if strings.HasPrefix(text, "<!--") {
			_, text, _ = strings.Cut(text, "-->")
			continue
		}
		tag, rest, closed := strings.Cut(text[1:], ">")
		if !closed {
			break
		}
		text = rest
		element, attributes := tagName(tag)
		if element == "script" || element == "style" {
			text = from(text, "</"+element)
			continue
		}
		if err := p.tag(element, attributes); err != nil {
			return nil, err
		}
	}
	if err := p.endRow(); err != nil {
		return nil, err
	}
	return p.tables, nil
}

// tag acts on one tag; the element of a closing tag begins with a slash.
func (p *page) tag(element, attributes string) error {
	switch element {
	case "table":
		if p.depth++; p.depth == 1 {
			name := stem(p.file)
			if n := len(p.tables); n > 0 {
				name = fmt.Sprintf("%s, table %d", name, n+1)
			}
			p.tables = append(p.tables, Table{Name: name, File: p.file})
			p.row = 0
		}
	case "/table":
		if p.depth == 1 {
			if err := p.endRow(); err != nil {
				return err
			}
		}
		p.depth = max(0, p.depth-1)
	case "br", "br/", "/p":
		p.text.WriteByte('\n')
	}
	if p.depth != 1 {
		return nil
	}
	switch element {
	case "tr", "/tr":
		return p.endRow()
	case "td", "th":
		p.endCell()
		p.inCell, p.spans = true, columnSpan(attributes)
		p.text.Reset()
	case "/td", "/th":
		p.endCell()
	}
	return nil
}

func (p *page) endCell() {
	if !p.inCell {
		return
	}
	p.inCell = false
	raw := html.UnescapeString(p.text.String())
	for i := range min(p.spans, maxColumns-len(p.cells)) {
		p.cells = append(p.cells, Cell{Text: clean(raw), Raw: raw, Merged: i > 0})
	}
}

// endRow closes the row. A row of a page has no number of its own, so rows
// are counted.
func (p *page) endRow() error {
	p.endCell()
	if len(p.cells) == 0 || len(p.tables) == 0 {
		return nil
	}
	if err := p.budget.spend(len(p.cells)); err != nil {
		return err
	}
	p.row++
	if cells := trimTail(p.cells); len(cells) > 0 {
		t := &p.tables[len(p.tables)-1]
		t.Rows = append(t.Rows, Row{Number: p.row, Cells: cells})
	}
	p.cells = nil
	return nil
}

func tagName(tag string) (element, attributes string) {
	tag = strings.TrimSpace(tag)
	if end := strings.IndexAny(tag, " \t\r\n"); end >= 0 {
		tag, attributes = tag[:end], tag[end:]
	}
	return strings.ToLower(tag), strings.ToLower(attributes)
}

func columnSpan(attributes string) int {
	_, after, found := strings.Cut(attributes, "colspan=")
	if !found {
		return 1
	}
	after = strings.TrimLeft(after, `"'`)
	end := strings.IndexFunc(after, func(r rune) bool { return r < '0' || r > '9' })
	if end < 0 {
		end = len(after)
	}
	n, err := strconv.Atoi(after[:end])
	if err != nil {
		return 1
	}
	return min(max(n, 1), 100)
}

// from returns s from the first tag that begins with the lower-case text on,
// or nothing when there is none.
func from(s, tag string) string {
	for i := 0; i+len(tag) <= len(s); i++ {
		if s[i] == '<' && strings.EqualFold(s[i:i+len(tag)], tag) {
			return s[i:]
		}
	}
	return ""
}
