package settings

import (
	"strings"

	"lungwort/delivery"
	"lungwort/ui/ask"
)

// sites is a list of places of one sort.
func sites(id, what string, limit int, get func(delivery.Programme) []delivery.Site, set func(*delivery.Programme, []delivery.Site)) list {
	return rowsOf[delivery.Site]{
		id: id, what: what, limit: limit, get: get, set: set,
		says: func(_ delivery.Programme, s delivery.Site) (string, string) {
			return s.Title, join("“"+s.Name+"”", s.Phone, s.Point.Area, where(s.Point))
		},
		asks: func(_ delivery.Programme, s delivery.Site) []ask.Field {
			return []ask.Field{
				{Key: "title", Label: "Title", Value: s.Title, Hint: "as papers write it"},
				{Key: "name", Label: "Short name", Value: s.Name, Hint: "lists and facts refer to it; it stays"},
				{Key: "phone", Label: "Phone", Value: s.Phone, Hint: "who opens, day and night"},
				{Key: "point", Label: "Where", Value: where(s.Point), Hint: "latitude, longitude, as 36.512, -40.521; blank: rides from here are not known"},
				{Key: "area", Label: "Area", Value: s.Point.Area, Hint: "island or district; ferries join areas"},
			}
		},
		read: func(r *ask.Reader, _ delivery.Programme, a ask.Answers) delivery.Site {
			s := delivery.Site{
				Title: r.Need("title", "write what papers call it"), Name: r.Need("name", "write one short word"), Phone: a.Text("phone"),
			}
			point, err := point(a.Text("point"))
			r.Fail("point", err)
			s.Point = point
			s.Point.Area = a.Text("area")
			return s
		},
	}
}

var (
	hospital = sites("hospital", "hospital", 1,
		func(p delivery.Programme) []delivery.Site {
			if p.Hospital.Name == "" {
				return nil
			}
			return []delivery.Site{p.Hospital}
		},
		func(p *delivery.Programme, rows []delivery.Site) {
			p.Hospital = delivery.Site{}
			for _, s := range rows {
				p.Hospital = s
			}
		})
	wards = sites("wards", "ward", 0,
		func(p delivery.Programme) []delivery.Site { return p.Wards },
		func(p *delivery.Programme, rows []delivery.Site) { p.Wards = rows })
	depots = sites("depots", "depot", 0,
		func(p delivery.Programme) []delivery.Site { return p.Depots },
		func(p *delivery.Programme, rows []delivery.Site) { p.Depots = rows })
	plants = sites("plants", "filling plant", 0,
		func(p delivery.Programme) []delivery.Site { return p.Plants },
		func(p *delivery.Programme, rows []delivery.Site) { p.Plants = rows })
)

// where writes a point as point reads it.
func where(p delivery.Point) string {
	if !p.Known() {
		return ""
	}
	return decimals(p.Lat) + ", " + decimals(p.Lon)
}

// point reads latitude and longitude; nothing gives no point.
func point(text string) (delivery.Point, error) {
	if text == "" {
		return delivery.Point{}, nil
	}
	return delivery.ReadPoint(text)
}

func join(parts ...string) string {
	var said []string
	for _, part := range parts {
		if part != "" {
			said = append(said, part)
		}
	}
	return strings.Join(said, " · ")
}
