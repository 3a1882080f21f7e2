package delivery

import "lungwort/inventory"

// Says implements inventory.Statement for what is said of places and the ways
// between them.
func (*PlacesListed) Says() string { return "places listed" }
func (*RidesListed) Says() string  { return "rides listed" }

// placeWords are the words of where things lie and how far that is.
func placeWords() inventory.Vocabulary {
	return inventory.Vocabulary{
		"places listed": func() inventory.Statement { return new(PlacesListed) },
		"rides listed":  func() inventory.Statement { return new(RidesListed) },
	}
}
