package gas

import "strings"

// Status says how far a figure can be trusted.
type Status string

// The statuses of a figure, the surest first. A figure that is not known has
// none.
const (
	OnLabel   Status = "on the label" // read from the cylinder itself
	Set       Status = "set"          // by the programme
	Published Status = "published"    // read in a source the table names
	Nominal   Status = "nominal"      // the size's own name
	Derived   Status = "worked out"   // from other figures of the size
	Ideal     Status = "ideal gas"    // a label of water volume times pressure: 5 to 7 % under the gas it holds
	Recalled  Status = "from memory"  // check against the cylinder
)

// Figures says of each figure of a size where it comes from.
type Figures struct {
	Contents Status `json:"contents,omitempty"`
	Service  Status `json:"service,omitempty"`
	Volume   Status `json:"volume,omitempty"`
	Mass     Status `json:"mass,omitempty"`
	Factor   Status `json:"factor,omitempty"`
}

// Of what the sizes shipped share. Valves are all from memory.
var (
	published   = Figures{Contents: Published, Service: Recalled, Volume: Recalled, Mass: Recalled}
	recalled    = Figures{Contents: Recalled, Service: Recalled, Volume: Recalled, Mass: Recalled}
	weighed     = Figures{Contents: Published, Service: Published, Volume: Recalled, Mass: Published}
	worked      = Figures{Contents: Published, Service: Published, Volume: Derived, Mass: Recalled}
	charted     = Figures{Contents: Published, Service: Published, Volume: Recalled}
	idealLabel  = Figures{Contents: Ideal, Service: Published, Volume: Recalled}
	idealMemory = Figures{Contents: Ideal, Service: Recalled, Volume: Recalled}
	byFactor    = Figures{Contents: Derived, Service: Nominal, Volume: Nominal}
	bothRead    = Figures{Contents: Published, Service: Published, Volume: Published}
	byVolume    = Figures{Contents: Ideal, Service: Published, Volume: Published}
	guideline   = Figures{Contents: Published, Service: Recalled}
)

// Sources says each figure of the size with its status, as "682 L published,
// full at 2,015 psi from memory".
func (s Size) Sources() string {
	var said []string
	add := func(figure string, status Status) {
		if status != "" {
			said = append(said, figure+" "+string(status))
		}
	}
	add(s.Contents.String(), s.Figures.Contents)
	add("full at "+s.Service.String(), s.Figures.Service)
	if s.WaterVolume > 0 {
		add(trimmed(s.WaterVolume, 2)+" L of water", s.Figures.Volume)
	}
	if s.Factor > 0 {
		add(trimmed(s.Factor, 3)+" L/psi", s.Figures.Factor)
	}
	if s.EmptyMass > 0 {
		add(trimmed(s.EmptyMass, 1)+" kg empty", s.Figures.Mass)
	}
	return strings.Join(said, ", ")
}
