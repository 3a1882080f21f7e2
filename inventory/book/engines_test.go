package book_test

import (
	"testing"

	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
)

// freshBook gives a test a book of its own.
type freshBook = func(testing.TB, ...book.Set) *book.Book

// TestWhatHoldsOnEveryDatabase holds both databases a book can be kept in to
// the same promises.
func TestWhatHoldsOnEveryDatabase(t *testing.T) {
	promises := map[string]func(*testing.T, freshBook){
		"an error or a panic undoes the whole act":      testAnErrorOrAPanicUndoesTheWholeAct,
		"unique is told from other faults":              testUniqueIsToldFromOtherFaults,
		"facts are never changed or removed":            testFactsAreNeverChangedOrRemoved,
		"list gives rows in order and stops at a fault": testListGivesRowsInOrderAndStopsAtAFault,
		"reads never write":                             testReadsNeverWrite,
		"readers see whole acts while writers work":     testReadersSeeWholeActsWhileWritersWork,
		"a read stands at one moment":                   testAReadStandsAtOneMoment,
		"a stopped act writes nothing":                  testAStoppedActWritesNothing,
		"foreign keys hold on every write":              testForeignKeysHoldOnEveryWrite,
		"times come back as they were written":          testTimesComeBackAsTheyWereWritten,
		"a time may be missing":                         testATimeMayBeMissing,
	}
	for database, fresh := range map[string]freshBook{"in a file": booktest.New, "on a server": booktest.OnServer} {
		for name, test := range promises {
			t.Run(database+"/"+name, func(t *testing.T) { test(t, fresh) })
		}
	}
}
