package paper

import (
	"io"
	"strconv"

	"lungwort/inventory/refusal"
	"lungwort/labels/tongue"
)

// The frame of every page for people.
const (
	edge       MM = 10 // white border that office printers can't reach
	bandHeight MM = 9  // the black band with the emergency number
	headHeight MM = 19 // band and title
	footHeight MM = 9
	codeSide   MM = 18 // the paper's own code, top right
)

// pageDPI is what codes on office paper are sized for; laser printers have a
// multiple of it.
const pageDPI = DPI300

// sheet is a document for people: every page starts with the emergency number
// and ends with the paper's age. It fills from y down.
type sheet struct {
	*document
	head   Head
	tongue tongue.Tongue
	title  string // beside the code on every page; names no person
	banner string // warns on every page; empty for no warning
	again  string // repeated at the top of pages that something runs on to
	y      MM     // where the next thing goes
}

// newSheet returns a sheet without a page yet. Name goes into the file and so
// says what kind of paper it is, never whose.
func newSheet(head Head, page Format, name, title string) (*sheet, error) {
	if err := head.check(); err != nil {
		return nil, err
	}
	return &sheet{document: newDocument(page, pageDPI, name, head.Printed), head: head, tongue: tongue.English(), title: title}, nil
}

// speak sets the language of the frame of the pages. A translation that nobody
// has approved says so on every page, to the household and to who prints it.
func (s *sheet) speak(t tongue.Tongue) {
	s.tongue = t
	if !t.Approved() {
		s.banner = t.Say("frame.unreviewed") + "  " + tongue.English().Say("frame.unreviewed")
	}
}

func (s *sheet) left() MM   { return edge }
func (s *sheet) right() MM  { return s.page.Width - edge }
func (s *sheet) width() MM  { return s.page.Width - 2*edge }
func (s *sheet) bottom() MM { return s.page.Height - edge - footHeight }

// newPage starts a page with its head and goes to the top of its free part.
func (s *sheet) newPage() {
	s.addPage()
	s.headOfPage()
	s.y = edge + headHeight + 2
	if s.banner != "" {
		s.notice(s.banner)
	}
	if s.again != "" {
		s.fitted(s.left(), s.y, strong, s.width(), s.tongue.Say("frame.continued", "what", s.again))
		s.y += strong.leading() + 1
	}
}

// need starts a new page when less than height is free on this one, and
// reports whether it did.
func (s *sheet) need(height MM) bool {
	if s.pdf.PageCount() > 0 && s.y+height <= s.bottom() {
		return false
	}
	s.newPage()
	return true
}

// heading puts a heading over what follows, keeping at least follow of it on
// the same page.
func (s *sheet) heading(text string, follow MM) {
	lines := s.lines(heading, text, s.width(), 0)
	s.need(MM(len(lines))*heading.leading() + follow + 2)
	s.y += 1.5
	for _, line := range lines {
		s.words(s.left(), s.y, heading, line)
		s.y += heading.leading()
	}
	s.y += 0.5
}

// say writes text over the full width, flowing to further pages.
func (s *sheet) say(f face, text string) {
	for _, line := range s.lines(f, text, s.width(), 0) {
		s.need(f.leading())
		s.words(s.left(), s.y, f, line)
		s.y += f.leading()
	}
}

// finish puts the foot on every page, now that their number is known, and
// writes the document.
func (s *sheet) finish(w io.Writer) (Result, error) {
	if s.pdf.PageCount() == 0 {
		return Result{}, refusal.New(refusal.Internal, "There is nothing on this paper.", "")
	}
	s.feet(1)
	return s.write(w)
}

// feet puts the foot on the pages from the first on, counted from there.
func (s *sheet) feet(first int) {
	last := s.pdf.PageCount()
	for n := first; n <= last; n++ {
		s.pdf.SetPage(n)
		s.face = face{}
		s.pdf.SetFillColor(int(white), int(white), int(white)) // words take over the ground that was last on their page
		s.footOfPage(n-first+1, last-first+1)
	}
}

// headOfPage draws the emergency number, the title and the paper's code.
func (s *sheet) headOfPage() {
	wide := s.width()
	if s.head.Code != "" {
		wide -= codeSide + 2
		s.code(s.right()-codeSide, edge, codeSide, s.head.Code)
	}
	s.ground(s.left(), edge, wide, bandHeight, black)
	number := s.tongue.Say("frame.emergency", "number", s.head.Emergency)
	s.wordsOn(s.left()+3, edge+1.6, heading, white, number)
	taken := heading.width(s.clean(number)) + 8
	if s.head.OnCall != "" {
		call := fit(strong, s.clean(s.tongue.Say("frame.oncall", "who", s.head.OnCall)), wide-taken-3)
		s.wordsOn(s.left()+wide-3-strong.width(call), edge+2.2, strong, white, call)
	}
	s.fitted(s.left(), edge+bandHeight+2, heading, wide, s.title)
}

// footOfPage draws the paper's age and the number of the page.
func (s *sheet) footOfPage(n, pages int) {
	y := s.page.Height - edge - small.leading()
	s.rule(s.left(), y-1.5, s.right(), y-1.5, 0.2, black)
	page := s.tongue.Say("frame.page", "page", strconv.Itoa(n), "pages", strconv.Itoa(pages))
	s.words(s.right()-caption.width(page), y, caption, page)
	said := s.tongue.Say("frame.printed", "printed", s.tongue.Moment(s.head.Printed), "facts", s.tongue.Moment(s.head.FactsAsOf))
	if s.head.Programme != "" {
		said += "  ·  " + s.head.Programme
	}
	if len(s.unshown) > 0 {
		said = "□ = a sign this printer can't show; see the book  ·  " + said
	}
	s.fitted(s.left(), y, small, s.width()-caption.width(page)-6, said)
}
