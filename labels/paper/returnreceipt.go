package paper

import (
	"io"
	"strings"
	"time"

	"lungwort/labels/tongue"
)

// ReturnReceipt says what a household gave back and what is still out.
type ReturnReceipt struct {
	Head
	Tongue      tongue.Tongue // of the household
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
	s, err := spokenSheet(r.Head, r.Tongue, "Return receipt", "return.title")
	if err != nil {
		return Result{}, err
	}
	say := s.tongue.Say
	s.title += "  ·  " + s.tongue.Moment(r.At)
	s.newPage()
	s.again = r.Name
	s.whose(r.Name, r.Identifiers, r.Address)
	s.facts([]fact{{say("return.place"), r.Place}, {say("return.by"), r.TakenBy}, {say("return.at"), s.tongue.Moment(r.At)}}, 3)
	s.heading(say("return.came"), 24)
	if len(r.Returned) == 0 {
		s.say(body, say("return.nothing"))
	}
	s.kit(r.Returned, r.At)
	s.missing(r.Missing)
	s.notOurs(r.NotOurs)
	s.y += 1
	s.say(small, say("return.clean"))
	s.spokenSignature("return.sign", "sign.gives")
	s.blanks([]blank{{say("sign.takes"), 80}, {say("sign.role"), 90}, {say("sign.when"), 30}}, 12)
	return s.finish(w)
}

// missing lists what the loan still holds, without a reproach.
func (s *sheet) missing(items []Item) {
	say := s.tongue.Say
	s.heading(say("return.still"), 14)
	if len(items) == 0 {
		s.say(strong, say("return.closed"))
		return
	}
	var rows [][]cell
	for _, i := range items {
		rows = append(rows, []cell{said{body, i.What}, said{strong, i.Tag}, said{body, i.Serial}, ticked{said{small, say("return.found")}}})
	}
	s.table([]column{{say("kit.what"), 72}, {say("kit.tag"), 40}, {say("kit.serial"), 40}, {"", s.width() - 152}}, rows)
}

// notOurs lists what came along by mistake.
func (s *sheet) notOurs(items []OtherItem) {
	if len(items) == 0 {
		return
	}
	say := s.tongue.Say
	s.heading(say("return.others"), 14)
	var rows [][]cell
	for _, i := range items {
		rows = append(rows, []cell{said{body, i.What}, said{strong, strings.Join(present(i.Tag, i.Serial), ", ")}, said{body, i.Why}})
	}
	s.table([]column{{say("kit.what"), 62}, {say("kit.tag"), 50}, {say("return.done"), s.width() - 112}}, rows)
}
