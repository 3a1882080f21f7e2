package papers

import (
	"context"
	"fmt"
	"path/filepath"

	"lungwort/delivery/paperwork"
	"lungwort/inventory"
	"lungwort/inventory/sheet"
	items "lungwort/inventory/store"
)

// The files a sheet can be.
const (
	Workbook = ".xlsx"
	Commas   = ".csv"
)

// kind is one paper or sheet this screen makes.
type kind struct {
	id    string // begins the name of its files
	name  string
	holds string
	ext   string
	// count says how much it holds now, "12 homes".
	count func(tally) string
	// make writes it. What it returns is to be opened: one file, or the folder
	// when there are several.
	make func(job) (string, error)
}

// job is one paper under way.
type job struct {
	ctx   context.Context
	clerk paperwork.Clerk
	dir   string
	stamp string                        // ends the names of its files
	ends  string                        // of the file of a sheet
	by    string                        // who prints
	tell  func(what string, of float64) // how far it is
}

// kinds are the papers in the order a day needs them.
var kinds = []kind{
	{
		id: "night-pack", name: "Night pack", ext: ".pdf",
		holds: "every household for the person on call: who is on duty, gas, act-by, whom to ring, stock, lines to write on",
		count: func(t tally) string { return plural(t.homes, "home") }, make: night,
	},
	{
		id: "run-sheet", name: "Run sheets", ext: ".pdf",
		holds: "one for each run still out or to come: load list, stops in order, what to leave and take, room to write",
		count: func(t tally) string { return plural(t.runs, "run") + ", " + plural(t.stops, "stop") }, make: runSheets,
	},
	{
		id: "leaflet", name: "Household leaflets", ext: ".pdf",
		holds: "one for each home that a run brings things to, in its language: whom to ring, changing over, power cut, fire",
		count: func(t tally) string { return plural(t.stops, "stop") }, make: leaflets,
	},
	{
		id: "watch-list", name: "Watch list", ext: Workbook,
		holds: "every person on oxygen, most urgent first: verdict, gas, dry times, act-by, next action",
		count: func(t tally) string { return plural(t.homes, "home") },
		make:  table("watch-list", paperwork.Clerk.WatchList),
	},
	{
		id: "calls", name: "Calls due", ext: Workbook,
		holds: "the calls due now in the order in which to make them: number, language, why, what to ask",
		count: func(t tally) string { return "of " + plural(t.homes, "home") },
		make:  table("calls", paperwork.Clerk.Calls),
	},
	{
		id: "clinician", name: "To tell the clinician", ext: Workbook,
		holds: "what was seen and nobody was told of, each with its facts, and room for whom, when and the reply",
		count: func(t tally) string { return "of " + plural(t.homes, "home") },
		make:  table("clinician", paperwork.Clerk.Clinician),
	},
	{
		id: "loans", name: "Loans", ext: Workbook,
		holds: "every item on loan: who has it, since when, last gauge and hours",
		count: func(t tally) string { return plural(t.lent, "item") },
		make:  table("loans", paperwork.Clerk.Loans),
	},
	{
		id: "people", name: "People", ext: Workbook,
		holds: "every person with the home; edited, it can be taken in again, as items and loans can",
		count: func(tally) string { return "all of them" },
		make:  table("people", paperwork.Clerk.People),
	},
	{
		id: "deliveries", name: "Proof of delivery", ext: Workbook,
		holds: "every hand-over to a person: what, serial, day, who signed and as what; what has no proof is blank",
		count: func(tally) string { return "all of them" },
		make:  table("deliveries", paperwork.Clerk.Deliveries),
	},
	{
		id: "bench", name: "Bench log", ext: Workbook,
		holds: "what came back, was tested, filled, released or kept, newest first",
		count: func(tally) string { return "the last year" },
		make:  table("bench", paperwork.Clerk.Bench),
	},
	{
		id: "exchange", name: "Exchanges", ext: Workbook,
		holds: "the slips signed with filling plants by owner and size, with what is rented now in the notes",
		count: func(tally) string { return "all of them" },
		make:  table("exchange", paperwork.Clerk.Exchanges),
	},
	{
		id: "rental", name: "Rental", ext: Workbook,
		holds: "every rented cylinder with when it was with us and where it was last known to be",
		count: func(tally) string { return "the last 30 days" },
		make:  table("rental", paperwork.Clerk.Rental),
	},
	{
		id: "outlook", name: "Outlook", ext: Workbook,
		holds: "each kind of thing, day by day for two weeks: what is likely left, the chance of running short, what helps",
		count: func(tally) string { return "two weeks" },
		make:  table("outlook", paperwork.Clerk.Outlook),
	},
	{
		id: "recalls", name: "Recalls", ext: Workbook,
		holds: "the marked items of every recall in the order of risk: told, replied, located, swap",
		count: func(tally) string { return "all of them" },
		make:  table("recalls", paperwork.Clerk.Recalls),
	},
	{
		id: "items", name: "Items", ext: Workbook,
		holds: "every item of the programme: tag, serial, state, place, fill, requalification, recall",
		count: func(t tally) string { return plural(t.items, "item") },
		make: table("items", func(c paperwork.Clerk, ctx context.Context) (sheet.Out, error) {
			return c.Items(ctx, items.Filter{})
		}),
	},
	{
		id: "runs", name: "Runs", ext: Workbook,
		holds: "every stop of the runs not ended: planned and true times, what failed and why",
		count: func(t tally) string { return plural(t.runs, "run") },
		make:  table("runs", paperwork.Clerk.Runs),
	},
}

func (j job) path(name, ext string) string {
	return filepath.Join(j.dir, name+"-"+j.stamp+ext)
}

func night(j job) (string, error) {
	pack, homes, err := j.clerk.Night(j.ctx)
	if err != nil {
		return "", err
	}
	j.tell("Printing the night pack", 0.5)
	path := j.path("night-pack", ".pdf")
	if err := paperwork.Save(path, pack); err != nil {
		return "", err
	}
	return path, j.clerk.Printed(j.ctx, homes, j.by)
}

// runSheets prints a sheet for each run; with several, the folder is opened.
func runSheets(j job) (string, error) {
	trips, err := j.clerk.Trips(j.ctx)
	if err != nil {
		return "", err
	}
	if len(trips) == 0 {
		return "", noRuns
	}
	path := ""
	for i, run := range trips {
		if err := j.ctx.Err(); err != nil {
			return "", err
		}
		j.tell(fmt.Sprintf("Printing the run sheet of %s", run.Vehicle), float64(i)/float64(len(trips)))
		page, err := j.clerk.Trip(j.ctx, run)
		if err != nil {
			return "", err
		}
		path = j.path("run-sheet-"+string(run.ID), ".pdf")
		if err := paperwork.Save(path, page); err != nil {
			return "", err
		}
	}
	if len(trips) > 1 {
		path = j.dir
	}
	return path, nil
}

// leaflets prints a leaflet for each person something is brought to; with
// several, the folder is opened.
func leaflets(j job) (string, error) {
	trips, err := j.clerk.Trips(j.ctx)
	if err != nil {
		return "", err
	}
	var who []inventory.PersonID
	for _, run := range trips {
		for _, stop := range run.Open() {
			who = append(who, stop.Persons...)
		}
	}
	path, made := "", 0
	for i, id := range who {
		if err := j.ctx.Err(); err != nil {
			return "", err
		}
		j.tell(fmt.Sprintf("Printing leaflet %d of %d", i+1, len(who)), float64(i)/float64(len(who)))
		file, err := j.clerk.LeafletForStop(j.ctx, j.dir, id, j.path("leaflet-"+string(id), ".pdf"))
		if err != nil {
			return "", err
		}
		if file != "" {
			path, made = file, made+1
		}
	}
	switch made {
	case 0:
		return "", noRuns
	case 1:
		return path, nil
	}
	return j.dir, nil
}

// table writes one sheet.
func table(name string, collect func(paperwork.Clerk, context.Context) (sheet.Out, error)) func(job) (string, error) {
	return func(j job) (string, error) {
		out, err := collect(j.clerk, j.ctx)
		if err != nil {
			return "", err
		}
		j.tell("Writing "+fmt.Sprint(len(out.Rows))+" rows", 0.5)
		path := j.path(name, j.ends)
		return path, sheet.Write(path, []sheet.Out{out})
	}
}
