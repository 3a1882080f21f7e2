package runs

import (
	"strconv"

	"lungwort/delivery"
	"lungwort/delivery/paperwork"
	"lungwort/labels/scene"
)

// Chart is the map of the round that holds the stop in hand: its stops under
// the numbers they have on the board, each with the verdict of its home.
func (m *Model) Chart(sight scene.Sight) scene.MapData {
	d := paperwork.Chart(m.book.programme, m.book.outline)
	d.Sight, d.Towns = sight, nil
	round, _, on := m.where(m.table.hand)
	if !on {
		return d
	}
	r := m.table.times[round]
	var way scene.MapRoute
	add := func(at delivery.Point, label string) {
		if at.Known() {
			way.Stops, way.Labels = append(way.Stops, scene.Position{Lat: at.Lat, Lon: at.Lon}), append(way.Labels, label)
		}
	}
	vehicle, _ := m.book.programme.Vehicle(r.Vehicle)
	depot, _ := m.book.programme.Site(vehicle.Depot)
	add(depot.Point, "")
	for _, s := range r.Stops {
		point := m.book.places[s.Address].Point
		add(point, strconv.Itoa(s.Number))
		if point.Known() {
			d.Homes = append(d.Homes, m.mark(s, point))
		}
	}
	add(depot.Point, "")
	d.Routes = []scene.MapRoute{way}
	return d
}

func (m *Model) mark(s delivery.StopTimes, at delivery.Point) scene.MapHome {
	h := scene.MapHome{At: scene.Position{Lat: at.Lat, Lon: at.Lon}, Name: m.whoAt(s), Key: strconv.Itoa(s.On), InHand: s.On == m.table.hand}
	for _, who := range s.Persons {
		if w, known := m.book.watch[who]; known && w.Care.Watched() {
			h.Verdict = string(w.Verdict)
		}
	}
	return h
}

// ChartWhole is what the map shows at first: the round, from the depot and
// back.
func (m *Model) ChartWhole() []scene.Position {
	for _, way := range m.Chart(scene.Sight{}).Routes {
		return way.Stops
	}
	return m.Chart(scene.Sight{}).Everything()
}
