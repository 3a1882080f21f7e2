// Package work is what every screen works with: the desk, the clock, who sits
// there, and how to go on to another screen. It knows nothing of windows, so
// that a screen's model can be driven by an ordinary test.
package work

import (
	"context"
	"errors"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/ui/printing"
	"lungwort/ui/runner"
)

// Room names a screen of the window.
type Room string

// The rooms of the window, in the order of the side bar. Person and Item are
// opened from a list, a scan or a search.
const (
	Needs     Room = "needs"     // what needs you, most urgent first
	Discharge Room = "discharge" // hand a kit over
	Calls     Room = "calls"     // check-in calls, and what the clinician is to hear
	Homes     Room = "homes"     // every person
	Items     Room = "items"     // every item and the stock
	Places    Room = "places"    // where everything is
	Runs      Room = "runs"      // plan, print, close
	Map       Room = "map"       // where homes, depots and runs are
	Return    Room = "return"    // scan in what comes back
	Chase     Room = "chase"     // what stands in homes unneeded
	Bench     Room = "bench"     // clean, test, release
	Receive   Room = "receive"   // scan new things in, by the pallet
	Supplies  Room = "supplies"  // counted by lot and place
	Questions Room = "questions" // what facts leave open
	Plant     Room = "plant"     // exchange with a filling plant
	Recall    Room = "recall"    // search, mark, follow
	Stocktake Room = "stocktake" // count a place blind
	Outlook   Room = "outlook"   // will there be enough
	Measures  Room = "measures"  // are we any good
	Labels    Room = "labels"    // print labels
	Outage    Room = "outage"    // power out: cover, gas to bring, calls
	Papers    Room = "papers"    // night pack, watch list, exports
	Intake    Room = "intake"    // take spreadsheets in
	Settings  Room = "settings"  // the programme's settings
	Person    Room = "person"
	Item      Room = "item"
	Alarm     Room = "alarm"    // a machine beeps, or somebody is short of breath: the person of the target
	Night     Room = "night"    // gas is ending: the person of the target, or nobody known
	NightLog  Room = "nightlog" // key in what was written on the night pack
	News      Room = "news"     // what stands otherwise than it was known
	Visit     Room = "visit"    // a stop being closed, for the person of the target
)

// Target is a room with what to show in it.
type Target struct {
	Room   Room
	Person inventory.PersonID
	Item   inventory.ItemID
	Run    inventory.RunID
	Text   string               // what was typed or scanned
	Homes  []inventory.PersonID // chosen on the map: for power cuts, recalls, runs
	Among  Among                // of the items alone
}

// EndRun is the text of a target on the runs screen that asks to end its run.
const EndRun = "end run"

// Among are the items that stand at one place in one state. What is empty
// chooses all.
type Among struct {
	Place inventory.Place
	State inventory.State
	Kind  inventory.Kind
	Size  gas.SizeCode
}

// Scan is what a scan did, in words that are read from two metres away.
type Scan struct {
	Verdict string // of package scene: holds for taken, unknown for asked, short for refused
	Title   string
	Detail  string
}

// Work is handed to each screen's model. Every func must be set.
type Work struct {
	Desk *store.Desk
	Run  runner.Runner
	Now  func() time.Time // on the clock on the wall here, which knows when it is changed
	By   string           // who sits at the desk
	Role delivery.Role    // as what, where the book asks for names; empty: nobody is asked
	// Veil is the privacy view: what is read shows initials and numbers.
	Veil bool
	Dir  string // where papers and exports are written
	// Printers are those of the machine; nil where there are none.
	Printers *printing.Printers

	Open func(Target)      // goes to another screen
	Say  func(text string) // tells what was just done
	// Offer tells what was just done with a step that may follow, as "Undo".
	Offer func(text, step string, do func())
	// Field brings the keyboard to the one field on top, for the next scan.
	Field func()
	// Scanned tells, large, what a scan did.
	Scanned func(Scan)
	Refuse  func(error)       // tells what was refused, and the next step
	Show    func(file string) // opens a paper in the system's viewer
	// Leave leaves the desk: whoever comes next is asked for the name.
	Leave func()
	// Changed tells the window that the book has changed, so that counts and
	// lists are read anew.
	Changed func()
}

// Hand returns the hand of an act done now at this desk.
func (w *Work) Hand(source inventory.Source) store.Hand {
	return store.Hand{By: w.By, Source: source, At: w.Now()}
}

// Ask reads off the window's goroutine and shows on it. A refusal is told; the
// outcome of an older question of the same kind is dropped.
func Ask[T any](w *Work, kind string, read func(context.Context) (T, error), show func(T)) {
	var answer T
	veil := w.Veil
	w.Run.Go(kind, func(ctx context.Context) (err error) {
		if veil {
			ctx = store.Veiled(ctx)
		}
		answer, err = read(ctx)
		return err
	}, func(err error) {
		switch {
		case err == nil:
			show(answer)
		case !errors.Is(err, context.Canceled):
			w.Refuse(err)
		}
	})
}

// Do does an act off the window's goroutine, tells its outcome, and then runs
// after on the window's goroutine when it was not refused.
func (w *Work) Do(kind string, hand store.Hand, act delivery.Act, after func(store.Outcome)) {
	Ask(w, kind, func(ctx context.Context) (store.Outcome, error) {
		return w.Desk.Do(ctx, hand, act)
	}, func(out store.Outcome) {
		w.Say(out.Says)
		w.Changed()
		if after != nil {
			after(out)
		}
	})
}

// Try is Do for a form: after is told the outcome, or the refusal, which the
// form shows where the person is looking.
func (w *Work) Try(kind string, hand store.Hand, act delivery.Act, after func(store.Outcome, error)) {
	var out store.Outcome
	veil := w.Veil
	w.Run.Go(kind, func(ctx context.Context) (err error) {
		if veil {
			ctx = store.Veiled(ctx)
		}
		out, err = w.Desk.Do(ctx, hand, act)
		return err
	}, func(err error) {
		if err == nil {
			w.Say(out.Says)
			w.Changed()
		}
		after(out, err)
	})
}
