package work

import (
	"slices"

	"lungwort/delivery"
)

// byRole are the screens of each role beside the coordinator, who has all.
// Common practice, no source: each has what its day needs.
var byRole = map[delivery.Role][]Room{
	delivery.AsDriverDesk: {
		Needs, News, Homes, Person, Night, Alarm, Runs, Map, Visit, Items, Item, Places, Return, Supplies, Labels, Papers,
	},
	delivery.AsWarehouse: {
		Bench, Items, Item, Places, Return, Receive, Supplies, Plant, Stocktake, Outlook, Labels,
	},
	delivery.AsOnCall: {
		Needs, News, Calls, Night, NightLog, Alarm, Homes, Person, Runs, Map, Visit, Outage, Items, Item, Places, Papers,
	},
	delivery.AsReader: {
		Needs, News, Homes, Person, Runs, Map, Questions, Items, Item, Places, Chase, Supplies, Recall, Outlook, Measures, Papers,
	},
}

// Has reports whether whoever is at the desk has a screen.
func (w *Work) Has(r Room) bool { return Has(w.Role, r) }

// Has reports whether a role has a screen. Where nobody is asked for a name
// everybody has all.
func Has(role delivery.Role, r Room) bool {
	rooms, limited := byRole[role]
	return !limited || slices.Contains(rooms, r)
}
