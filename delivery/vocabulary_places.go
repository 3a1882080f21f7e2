package delivery

import "lungwort/inventory"

// Says implements inventory.Statement.
func (*PlacesListed) Says() string { return "places listed" }

// placeWords are the words of where things lie and how far that is.
func placeWords() inventory.Vocabulary {
	return inventory.Vocabulary{
		"places listed": func() inventory.Statement { return new(PlacesListed) },
	}
}
