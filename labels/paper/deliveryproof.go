package paper

import (
	"io"
	"slices"
	"strconv"
	"time"

	"lungwort/labels/tongue"
)

// DeliveryProof says what was left in a home, when, and who signed for it.
// What nobody signed for yet can be signed for on it.
type DeliveryProof struct {
	Head
	Tongue      tongue.Tongue // of the household
	Name        string
	Identifiers []string // besides the name
	Address     []string
	Things      []ProvenThing
}

// ProvenThing is one thing that was left, and who signed for it.
type ProvenThing struct {
	Item
	Left     time.Time
	Signed   time.Time // zero: nobody did yet
	SignedBy string    // with the relationship
}

// Print writes the proof.
func (p DeliveryProof) Print(w io.Writer) (Result, error) {
	s, err := spokenSheet(p.Head, p.Tongue, "Proof of delivery", "proof.title")
	if err != nil {
		return Result{}, err
	}
	say := s.tongue.Say
	s.newPage()
	s.again = p.Name
	s.whose(p.Name, p.Identifiers, p.Address)
	s.heading(say("proof.left"), 24)
	columns := []column{
		{say("kit.count"), 17}, {say("kit.what"), 42}, {say("kit.tag"), 35}, {say("kit.serial"), 35},
		{say("proof.when"), 28}, {say("proof.signed"), s.width() - 157},
	}
	var rows [][]cell
	for _, t := range p.Things {
		signed := cell(said{small, "–"})
		if !t.Signed.IsZero() {
			signed = stack{said{strong, t.SignedBy}, said{small, s.tongue.Day(t.Signed)}}
		}
		rows = append(rows, []cell{
			said{strong, strconv.Itoa(t.quantity())}, said{body, t.What}, said{strong, t.Tag}, said{body, t.Serial},
			said{small, s.tongue.Day(t.Left)}, signed,
		})
	}
	s.table(columns, rows)
	s.y += 2
	if slices.ContainsFunc(p.Things, func(t ProvenThing) bool { return t.Signed.IsZero() }) {
		s.spokenSignature("proof.sign", "sign.theirs")
	}
	s.notice(say("proof.staff"))
	return s.finish(w)
}

// momentBeside is as the function of that name, in the sheet's language.
func (s *sheet) momentBeside(t, beside time.Time) string {
	if t.IsZero() || t.Format(time.DateOnly) == beside.Format(time.DateOnly) {
		return momentBeside(t, beside)
	}
	return s.tongue.Moment(t)
}

// spokenSheet returns a sheet that speaks a household's language, its title by
// key. No language is English.
func spokenSheet(head Head, t tongue.Tongue, name, title string) (*sheet, error) {
	if t.Name == "" {
		t = tongue.English()
	}
	if err := setInFull(t); err != nil {
		return nil, err
	}
	s, err := newSheet(head, head.Format, name, t.Say(title))
	if err != nil {
		return nil, err
	}
	s.speak(t)
	return s, nil
}

// spokenSignature is where somebody signs, under words by key.
func (s *sheet) spokenSignature(words, who string) {
	say := s.tongue.Say
	s.heading(say(words), 18)
	s.blanks([]blank{{say(who), 80}, {say("sign.name"), 60}, {say("sign.relationship"), 30}, {say("sign.when"), 30}}, 14)
}
