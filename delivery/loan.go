package delivery

import (
	"fmt"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/outlook"
)

// LoanSpan is one stay of one thing with one person.
type LoanSpan struct {
	Item   inventory.ItemID
	Person inventory.PersonID
	From   time.Time
	Until  time.Time // zero: it is still there
}

// LoansOf returns the loans of one thing, oldest first, from the facts about
// it.
func LoansOf(item inventory.ItemID, facts []inventory.Fact) []LoanSpan {
	var loans []LoanSpan
	end := func(at time.Time) {
		if n := len(loans); n > 0 && loans[n-1].Until.IsZero() {
			loans[n-1].Until = at
		}
	}
	for _, f := range inventory.Standing(facts) {
		switch f.Statement.(type) {
		case *inventory.Lent:
			end(f.Happened)
			loans = append(loans, LoanSpan{Item: item, Person: f.Person, From: f.Happened})
		case *inventory.Collected, *inventory.Returned, *inventory.LeftAt, *inventory.Moved, *inventory.Cleared:
			end(f.Happened)
		}
	}
	return loans
}

// LoanLengths says how long loans last, the open ones counted as longer than
// they are old, and which are long enough to be looked at. None is left out.
func (p Programme) LoanLengths(loans []LoanSpan, now time.Time) []string {
	if len(loans) == 0 {
		return nil
	}
	stays, longest, review := make([]outlook.Stay, len(loans)), outlook.Days(0), 0
	for i, l := range loans {
		until := l.Until
		if until.IsZero() {
			until = now
		}
		stays[i] = outlook.Stay{Length: outlook.Days(until.Sub(l.From).Hours() / 24), Ended: !l.Until.IsZero()}
		longest = max(longest, stays[i].Length)
		if int(stays[i].Length) >= p.LoanReviewDays() {
			review++
		}
	}
	curve := outlook.Estimate(stays)
	var says []string
	if middle, known := curve.Quantile(0.5); known {
		says = append(says, fmt.Sprintf("half of all loans have ended after %.0f days, the mean is %.0f (%d loans, %d still open and counted as longer)", middle, curve.Mean(longest), curve.Stays, curve.Stays-curve.Ended))
	} else {
		says = append(says, fmt.Sprintf("how long loans last is censored: %d of %d are still open, nobody can know the middle yet", curve.Stays-curve.Ended, curve.Stays))
	}
	if review > 0 {
		says = append(says, fmt.Sprintf("%s of %d days or more, the longest %.0f: counted, and to be looked at", count(review, "loan"), p.LoanReviewDays(), longest))
	}
	return says
}
