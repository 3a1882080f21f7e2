package delivery

import (
	"cmp"
	"maps"
	"slices"
	"strings"
	"unicode"
)

// ZoneKind says by what a power cut chooses the homes it touches.
type ZoneKind string

// The kinds of zones. AnyZone is a name that may be an area, a town, a power
// line or a street: whatever goes by it is touched.
const (
	AnyZone    ZoneKind = ""
	ByArea     ZoneKind = "area"
	ByTown     ZoneKind = "town"
	ByLine     ZoneKind = "line"
	ByStreet   ZoneKind = "street"
	Everywhere ZoneKind = "everywhere"
	// ByHomes names the homes themselves, as an area drawn on the map chooses
	// them; the name is the area's.
	ByHomes ZoneKind = "homes"
)

// Zone is the part of the programme a power cut touches.
type Zone struct {
	By   ZoneKind
	Name string // empty when everywhere
}

// InWords returns the zone as a sentence goes on: "in Saltpan", "everywhere".
func (z Zone) InWords() string {
	switch z.By {
	case Everywhere:
		return "everywhere"
	case ByHomes:
		return "in " + z.Name + " on the map"
	case ByStreet:
		return "along " + z.Name
	case ByLine:
		return "on " + z.Name
	case AnyZone:
		if strings.HasSuffix(strings.ToLower(z.Name), " line") {
			return "on " + z.Name // as people call power lines
		}
	}
	return "in " + z.Name
}

// Holds reports whether an address lies in the zone.
func (z Zone) Holds(a Address) bool {
	if z.By == Everywhere {
		return true
	}
	for _, home := range zonesOf(a) {
		if home.Name != "" && (z.By == AnyZone || z.By == home.By) && sameName(z.Name, home.Name) {
			return true
		}
	}
	return z.Name != "" && (z.By == AnyZone || z.By == ByStreet) && sameName(z.Name, street(a.Street))
}

// zonesOf returns the zones an address lies in, but for everywhere.
func zonesOf(a Address) []Zone {
	along := street(a.Street)
	if along != "" && a.Town != "" {
		along += ", " + a.Town // two towns may have a street of the same name
	}
	return []Zone{{ByArea, a.Point.Area}, {ByTown, a.Town}, {ByLine, a.Line}, {ByStreet, along}}
}

// street returns the name of the street without the number of the house.
func street(text string) string {
	text, _, _ = strings.Cut(text, ",")
	numbered := func(word string) bool { return strings.ContainsFunc(word, unicode.IsDigit) }
	words := strings.Fields(text)
	for len(words) > 0 && numbered(words[0]) {
		words = words[1:]
	}
	for len(words) > 0 && numbered(words[len(words)-1]) {
		words = words[:len(words)-1]
	}
	return strings.Join(words, " ")
}

func sameName(a, b string) bool { return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b)) }

// ZoneCount is a zone with how many homes lie in it.
type ZoneCount struct {
	Zone
	Homes int
}

// Zones returns the zones that homes lie in: everywhere first, then areas,
// towns, lines and streets, each by name.
func Zones(homes []Address) []ZoneCount {
	counts := make(map[Zone]int)
	for _, a := range homes {
		for _, z := range zonesOf(a) {
			if z.Name != "" {
				counts[z]++
			}
		}
	}
	kinds := []ZoneKind{ByArea, ByTown, ByLine, ByStreet}
	zones := slices.SortedFunc(maps.Keys(counts), func(a, b Zone) int {
		return cmp.Or(cmp.Compare(slices.Index(kinds, a.By), slices.Index(kinds, b.By)), cmp.Compare(a.Name, b.Name))
	})
	list := []ZoneCount{{Zone{By: Everywhere}, len(homes)}}
	for _, z := range zones {
		list = append(list, ZoneCount{z, counts[z]})
	}
	return list
}

// Zone returns what the cut touches.
func (c PowerCut) Zone() Zone { return Zone{c.By, c.Area} }

// Touches reports whether a cut is announced for an address.
func (c PowerCut) Touches(a Address) bool {
	if c.By == ByHomes {
		return slices.Contains(c.Homes, a.ID)
	}
	return c.Zone().Holds(a)
}
