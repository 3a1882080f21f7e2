package tag

import (
	"fmt"
	"strings"
)

// paperPrefix begins the code on every paper. Points, not colons or slashes,
// part it: they come through scanners set to any keyboard.
const paperPrefix = "LWP."

// The papers that carry a code.
const (
	PaperRun      = "RUN"      // a run sheet
	PaperNight    = "NIGHT"    // a night pack
	PaperReceipt  = "RECEIPT"  // a hand-over receipt to sign
	PaperProof    = "PROOF"    // a proof of delivery
	PaperReturn   = "RETURN"   // a receipt for what came back
	PaperLetter   = "LETTER"   // a letter about what can come home
	PaperRecall   = "RECALL"   // a letter about a recalled item
	PaperLeaflet  = "LEAFLET"  // a household's leaflet
	PaperSign     = "SIGN"     // the sign at the door
	PaperGas      = "GAS"      // a person's gas chart
	PaperBench    = "BENCH"    // the tag of an item on the bench
	PaperHold     = "HOLD"     // the tag of an item that is kept back
	PaperSlip     = "SLIP"     // the slip of an exchange with a plant
	PaperOutage   = "OUTAGE"   // the list of a power cut
	PaperMap      = "MAP"      // a map
	PaperCalls    = "CALLS"    // the calls due, or what the clinician is to hear
	PaperMeasures = "MEASURES" // what the programme is judged by
)

// Papers are all of them.
var Papers = []string{
	PaperRun, PaperNight, PaperReceipt, PaperProof, PaperReturn, PaperLetter, PaperRecall, PaperLeaflet, PaperSign, PaperGas,
	PaperBench, PaperHold, PaperSlip, PaperOutage, PaperMap, PaperCalls, PaperMeasures,
}

// PaperCode returns the code printed on a paper, so that scanning the paper
// opens what it belongs to: the kind of paper, the id of its record, and an
// ISO/IEC 7064 MOD 37,36 check character. Kind and id are letters, digits and,
// in the id, dashes; ids that differ only in case are one.
func PaperCode(kind, id string) (string, error) {
	kind, id = strings.ToUpper(kind), strings.ToUpper(id)
	if !plainSigns(kind, alphabet) || !plainSigns(id, alphabet+"-") {
		return "", fmt.Errorf("A paper's code takes letters, digits and dashes only, not %q %q.", kind, id)
	}
	return paperPrefix + kind + "." + id + "." + string(paperCheck(kind, id)), nil
}

// swapYZ undoes what a German keyboard does to the code of a paper.
var swapYZ = strings.NewReplacer("Y", "Z", "Z", "Y", "y", "z", "z", "y")

func readPaper(text string) (Reading, error) { return readPaperAs(text, false) }

func readPaperAs(text string, already bool) (Reading, error) {
	parts := strings.Split(strings.ToUpper(text), ".")
	if len(parts) != 4 || len(parts[3]) != 1 || !plainSigns(parts[1], alphabet) || !plainSigns(parts[2], alphabet+"-") {
		return Reading{}, fmt.Errorf("%s begins like the code on one of our papers but is not whole. Scan again.", text)
	}
	kind, id := parts[1], parts[2]
	if paperCheck(kind, id) != parts[3][0] {
		if swapped := swapYZ.Replace(text); swapped != text && !already {
			return readPaperAs(swapped, true) // a German keyboard
		}
		return Reading{}, fmt.Errorf("%s is the code of a paper, but its check character does not fit. Scan again, or find the record by name.", text)
	}
	return Reading{Kind: Paper, PaperKind: kind, PaperID: id, Says: "paper " + kind + " " + id}, nil
}

func paperCheck(kind, id string) byte {
	return checkMod37(kind + strings.ReplaceAll(id, "-", ""))
}

func plainSigns(s, allowed string) bool {
	return s != "" && strings.Trim(s, allowed) == ""
}
