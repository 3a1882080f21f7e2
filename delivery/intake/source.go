package intake

import (
	"crypto/sha256"
	"encoding/hex"
	"hash"
	"regexp"
	"strings"
)

// source is the sign of where a list comes from: what its files are called
// without dates and numbers, and what its columns are headed. Next month's
// file of the same ledger has the same; another ward's ledger has not.
func (l *list) source() string {
	if l.from == "" {
		sign := sha256.New()
		put(sign, string(l.sort), calledAs(l.table.File), calledAs(l.table.Name))
		for i := range l.mapping.Width {
			if heading := strings.Join(plainWords(l.headingAt(i)), " "); heading != notTaken {
				put(sign, heading)
			}
		}
		l.from = signed(sign)
	}
	return l.from
}

// content is the sign of every cell of a list.
func (l *list) content() string {
	if l.holds == "" {
		sign := sha256.New()
		for _, row := range l.table.Rows {
			for _, c := range row.Cells {
				put(sign, c.Text)
			}
			put(sign, "\n")
		}
		l.holds = signed(sign)
	}
	return l.holds
}

func put(sign hash.Hash, words ...string) {
	for _, w := range words {
		sign.Write([]byte(w))
		sign.Write([]byte{0})
	}
}

func signed(sign hash.Hash) string { return hex.EncodeToString(sign.Sum(nil)[:16]) }

// passing are the words in a file's name that change from one to the next.
var passing = regexp.MustCompile(`\b(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?|` +
	`mon(?:day)?|tue(?:s|sday)?|wed(?:nesday)?|thu(?:rs|rsday)?|fri(?:day)?|sat(?:urday)?|sun(?:day)?|week|copy|copies|final|new|old|v|not taken in)\b`)

var notLetters = regexp.MustCompile(`[^\p{L}]+`)

// calledAs returns a name of a file or sheet without its ending, numbers and
// what else changes from one month to the next.
func calledAs(name string) string {
	if dot := strings.LastIndexByte(name, '.'); dot > 0 {
		name = name[:dot]
	}
	name = notLetters.ReplaceAllString(strings.ToLower(name), " ")
	return strings.Join(strings.Fields(passing.ReplaceAllString(name, " ")), " ")
}

// name is what a question is called for all lists of a source: its key without
// the name of the file.
func (q Question) name(l *list) string {
	return strings.NewReplacer(l.name(), "", l.table.File, "").Replace(q.Key)
}
