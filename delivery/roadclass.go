package delivery

import (
	"fmt"
	"math"
	"strings"
	"time"

	"lungwort/inventory/refusal"
)

// RoadClass is a kind of road and how it is driven. The first kilometres of a
// ride go by the first class, the next by the next: who drives far soon leaves
// the streets. What is left goes at the programme's driving speed. That short
// rides are slower than long ones is how fire companies were found to drive
// (Kolesar, Walker & Hausner, Operations Research 23(4), 1975; from memory).
type RoadClass struct {
	Name   string  `json:"name"`   // streets, country road
	Km     float64 `json:"km"`     // of each ride
	Kmh    float64 `json:"kmh"`    // as a rule; slow hours drag it out
	Source string  `json:"source"` // where the speed comes from
}

func (r RoadClass) check() error {
	bad := func(format string, args ...any) error {
		return refusal.New(refusal.Invalid, fmt.Sprintf(format, args...), "Give the kilometres of a ride, the speed, and where it comes from.")
	}
	switch {
	case strings.TrimSpace(r.Name) == "":
		return bad("A road class has no name.")
	case !(r.Km > 0 && r.Km <= 1000):
		return bad("%g km of %s can't be.", r.Km, r.Name)
	case !(r.Kmh > 0 && r.Kmh <= fastestKmh):
		return bad("%g km/h on %s can't be.", r.Kmh, r.Name)
	case strings.TrimSpace(r.Source) == "":
		return bad("Where the speed on %s comes from is not said.", r.Name)
	}
	return nil
}

// road is a ride over land.
func (p Programme) road(metres float64) Leg {
	hours, left := 0.0, metres/1000
	for _, r := range p.Roads {
		km := min(left, r.Km)
		hours += km / r.Kmh
		left -= km
	}
	hours += left / p.SpeedKmh
	takes := time.Duration(hours * float64(time.Hour)).Round(time.Minute)
	return Leg{Takes: max(takes, time.Minute), Metres: int64(math.Round(metres)), Known: true}
}

// RidesSay tells in words how rides are reckoned.
func (p Programme) RidesSay() string {
	words := "rides"
	if p.RidesFrom != "" {
		words = "rides listed in " + p.RidesFrom + "; the others"
	}
	for _, r := range p.Roads {
		words += fmt.Sprintf(" %g km of %s at %g km/h, then", r.Km, r.Name, r.Kmh)
	}
	return words + fmt.Sprintf(" at %.0f km/h over %.1f times the straight way", p.SpeedKmh, p.Detour)
}
