package intake

import (
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
)

// sign is the signature of a fact, and told those the book or a row has said: a
// long ledger has half a million, so only their digests are held.
type (
	sign [sha256.Size]byte
	told map[sign]bool
)

// signature tells whether two facts about a thing or a person say the same:
// the time and the words, but for statements whose details the program fills
// in. A thing may go to two persons at one time; that is told, not hidden.
func signature(at time.Time, says inventory.Statement, who inventory.PersonID) sign {
	body := ""
	switch says.(type) {
	case *inventory.Lent, *inventory.Returned:
		body = string(who)
	case *delivery.Discharged, *delivery.Registered, *inventory.Filled:
	default:
		raw, _ := json.Marshal(says) // statements are plain data
		body = string(raw)
	}
	return sha256.Sum256(fmt.Appendf(nil, "%d %s %s", at.Unix(), says.Says(), body))
}

// said returns the signatures of what the book has of a thing; what a row
// adds is had by the rows after it.
func (r *reader) said(t *thing) told {
	if t.told == nil {
		t.told = signatures(r.factsOf(t))
	}
	return t.told
}

func signatures(facts []inventory.Fact) told {
	has := told{}
	for _, f := range facts {
		has[signature(f.Happened, f.Statement, f.Person)] = true
	}
	return has
}
