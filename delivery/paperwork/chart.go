package paperwork

import (
	"lungwort/delivery"
	"lungwort/delivery/outline"
	"lungwort/inventory"
	"lungwort/labels/paper"
	"lungwort/labels/scene"
	"lungwort/labels/tag"
)

// Chart returns what every map of a programme shows: the outline and the
// depots.
func Chart(p delivery.Programme, o outline.Outline) scene.MapData {
	d := scene.MapData{Coast: lines(o.Land), Water: lines(o.Water), Roads: lines(o.Roads), Ferries: lines(o.Ferries)}
	for _, t := range o.Towns {
		d.Towns = append(d.Towns, scene.MapTown{At: scene.Position(t.At), Name: t.Name})
	}
	for _, site := range p.Depots {
		if site.Point.Known() {
			d.Depots = append(d.Depots, scene.MapDepot{At: position(site.Point), Name: site.Title})
		}
	}
	return d
}

// ChartRoute returns the way of a vehicle on the map: from its depot to its
// stops in order and back. Stops without a place are left out.
func ChartRoute(p delivery.Programme, vehicle string, stops []delivery.PlannedStop, places map[inventory.AddressID]delivery.Address) scene.MapRoute {
	var r scene.MapRoute
	v, _ := p.Vehicle(vehicle)
	depot, _ := p.Site(v.Depot)
	for _, at := range append([]delivery.Point{depot.Point}, append(pointsOf(stops, places), depot.Point)...) {
		if at.Known() {
			r.Stops = append(r.Stops, position(at))
		}
	}
	return r
}

func pointsOf(stops []delivery.PlannedStop, places map[inventory.AddressID]delivery.Address) []delivery.Point {
	points := make([]delivery.Point, len(stops))
	for i, s := range stops {
		points[i] = places[s.Address].Point
	}
	return points
}

func position(p delivery.Point) scene.Position { return scene.Position{Lat: p.Lat, Lon: p.Lon} }

func lines(all [][]outline.Position) [][]scene.Position {
	drawn := make([][]scene.Position, len(all))
	for i, line := range all {
		drawn[i] = make([]scene.Position, len(line))
		for k, p := range line {
			drawn[i][k] = scene.Position(p)
		}
	}
	return drawn
}

// MapPage returns the map as a page; w and h are its size on the screen.
func (d Desk) MapPage(data scene.MapData, says string, w, h float64) paper.MapPage {
	return paper.MapPage{Head: d.head(d.code(tag.PaperMap, d.Now.Format("20060102"))), Says: says, Map: data, W: w, H: h}
}
