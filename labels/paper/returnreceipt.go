package paper

import (
	"io"
	"strings"
	"time"
)

// ReturnReceipt says what a household gave back and what is still out.
type ReturnReceipt struct {
	Head
	Name        string
	Identifiers []string // besides the name
	Address     []string
	Place       string // where it came back: "Slipway depot, returns bay"
	At          time.Time
	TakenBy     string
	Returned    []KitItem
	Missing     []Item      // still out on this loan
	NotOurs     []OtherItem // came along but isn't of this loan, and what is done with it
}

// Print writes the receipt.
func (r ReturnReceipt) Print(w io.Writer) (Result, error) {
	s, err := newSheet(r.Head, r.Format, "Return receipt", "Return receipt  ·  "+moment(r.At))
	if err != nil {
		return Result{}, err
	}
	s.newPage()
	s.again = "Return from " + r.Name
	s.whose(r.Name, r.Identifiers, r.Address)
	s.facts([]fact{{"came back to", r.Place}, {"taken by", r.TakenBy}, {"at", moment(r.At)}}, 3)
	s.heading("Given back, with thanks", 24)
	if len(r.Returned) == 0 {
		s.say(body, "Nothing.")
	}
	s.kit(r.Returned, r.At)
	s.missing(r.Missing)
	s.notOurs(r.NotOurs)
	s.y += 1
	s.say(small, "A cylinder counts as empty only when its gauge was read. What came back is cleaned and tested before anyone uses it again.")
	s.signatures("Given back and taken in as listed.", "signature of who gives back", "signature of who takes in")
	return s.finish(w)
}

// missing lists what the loan still holds, without a reproach.
func (s *sheet) missing(items []Item) {
	s.heading("Still with you", 14)
	if len(items) == 0 {
		s.say(strong, "Nothing: this loan is closed.")
		return
	}
	var rows [][]cell
	for _, i := range items {
		rows = append(rows, []cell{said{body, i.What}, said{strong, i.Tag}, said{body, i.Serial}, ticked{said{small, "found later"}}})
	}
	s.table([]column{{"what", 72}, {"tag", 40}, {"serial", 40}, {"", s.width() - 152}}, rows)
}

// notOurs lists what came along by mistake.
func (s *sheet) notOurs(items []OtherItem) {
	if len(items) == 0 {
		return
	}
	s.heading("Came along, but isn't of this loan", 14)
	var rows [][]cell
	for _, i := range items {
		rows = append(rows, []cell{said{body, i.What}, said{strong, strings.Join(present(i.Tag, i.Serial), ", ")}, said{body, i.Why}})
	}
	s.table([]column{{"what", 62}, {"tag, serial", 50}, {"what we do with it", s.width() - 112}}, rows)
}
