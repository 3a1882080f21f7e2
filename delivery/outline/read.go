package outline

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strings"

	"lungwort/inventory/refusal"
)

// Limits of a file. A coast of a country drawn to a few metres lies well under
// them.
const (
	MostBytes     = 16 << 20
	MostPositions = 1 << 18
	deepest       = 16 // collections within collections
	longestName   = 60
)

// Read reads a GeoJSON file: polygons are land and their holes water, polygons
// with the property natural=water are water, lines are roads, lines with
// route=ferry ferries, and points with a name towns. Anything that is no
// GeoJSON in degrees, or too large, is refused.
func Read(r io.Reader) (Outline, error) {
	body, err := io.ReadAll(io.LimitReader(r, MostBytes+1))
	if err != nil {
		return Outline{}, unreadable("It can't be read to its end.", err)
	}
	if len(body) > MostBytes {
		return Outline{}, refusal.New(refusal.Invalid, fmt.Sprintf("The outline file has more than %d MB.", MostBytes>>20),
			"Cut it to the part of the country you serve, then take it in again.")
	}
	var in reader
	if err := in.object(body, properties{}, 0); err != nil {
		return Outline{}, err
	}
	if in.out.Empty() {
		return Outline{}, unreadable("It holds no polygon, no line and no named point.", nil)
	}
	return in.out, nil
}

func unreadable(why string, cause error) error {
	no := refusal.New(refusal.Invalid, "This is no outline a map can be drawn from. "+why, "Choose a GeoJSON file (RFC 7946) with coast or roads in degrees of longitude and latitude.")
	if cause != nil {
		return no.Because(cause)
	}
	return no
}

// properties are the few a map has a use for.
type properties struct {
	Name    any `json:"name"`
	Natural any `json:"natural"`
	Route   any `json:"route"`
}

// object is any object of GeoJSON.
type object struct {
	Type        string            `json:"type"`
	Features    []json.RawMessage `json:"features"`
	Geometries  []json.RawMessage `json:"geometries"`
	Geometry    json.RawMessage   `json:"geometry"`
	Properties  properties        `json:"properties"`
	Coordinates json.RawMessage   `json:"coordinates"`
	CRS         *struct {
		Properties struct {
			Name any `json:"name"`
		} `json:"properties"`
	} `json:"crs"`
}

// reader gathers an outline.
type reader struct {
	out   Outline
	count int
}

func (in *reader) object(body []byte, of properties, depth int) error {
	var o object
	if err := json.Unmarshal(body, &o); err != nil {
		return unreadable("It is no JSON of the right form.", err)
	}
	if depth > deepest {
		return unreadable("Its collections lie too deep in each other.", nil)
	}
	if o.CRS != nil && !inDegrees(o.CRS.Properties.Name) {
		return unreadable(fmt.Sprintf("Its coordinates are in %v, not in degrees.", o.CRS.Properties.Name), nil)
	}
	switch o.Type {
	case "FeatureCollection":
		return in.each(o.Features, of, depth)
	case "GeometryCollection":
		return in.each(o.Geometries, of, depth)
	case "Feature":
		if len(o.Geometry) == 0 || string(o.Geometry) == "null" {
			return nil // a feature may have no place
		}
		return in.object(o.Geometry, o.Properties, depth+1)
	case "Topology":
		return unreadable("It is TopoJSON.", nil)
	}
	return in.geometry(o, of)
}

func (in *reader) each(bodies []json.RawMessage, of properties, depth int) error {
	for _, body := range bodies {
		if err := in.object(body, of, depth+1); err != nil {
			return err
		}
	}
	return nil
}

// inDegrees reports whether a named system of coordinates is that of RFC 7946.
func inDegrees(name any) bool {
	text := strings.ToUpper(fmt.Sprint(name))
	return strings.Contains(text, "CRS84") || strings.HasSuffix(text, "4326") || name == nil
}

// geometry takes up what one geometry draws.
func (in *reader) geometry(o object, of properties) error {
	switch o.Type {
	case "Point":
		return lay(o, func(at []float64) error { return in.town(at, of) })
	case "MultiPoint":
		return lay(o, func(all [][]float64) error { return every(all, func(at []float64) error { return in.town(at, of) }) })
	case "LineString":
		return lay(o, func(line [][]float64) error { return in.line(line, of) })
	case "MultiLineString":
		return lay(o, func(all [][][]float64) error {
			return every(all, func(line [][]float64) error { return in.line(line, of) })
		})
	case "Polygon":
		return lay(o, func(rings [][][]float64) error { return in.polygon(rings, of) })
	case "MultiPolygon":
		return lay(o, func(all [][][][]float64) error {
			return every(all, func(rings [][][]float64) error { return in.polygon(rings, of) })
		})
	}
	return unreadable(fmt.Sprintf("%.40q is no kind of GeoJSON object.", o.Type), nil)
}

// lay reads coordinates of one shape and hands them on.
func lay[T any](o object, use func(T) error) error {
	var coordinates T
	if err := json.Unmarshal(o.Coordinates, &coordinates); err != nil {
		return unreadable("The coordinates of a "+o.Type+" are of another form.", err)
	}
	return use(coordinates)
}

func every[T any](all []T, use func(T) error) error {
	for _, one := range all {
		if err := use(one); err != nil {
			return err
		}
	}
	return nil
}

func (in *reader) town(at []float64, of properties) error {
	p, err := in.position(at)
	if name, is := of.Name.(string); err == nil && is && name != "" {
		if signs := []rune(name); len(signs) > longestName {
			name = string(signs[:longestName])
		}
		in.out.Towns = append(in.out.Towns, Town{p, name})
	}
	return err
}

func (in *reader) line(line [][]float64, of properties) error {
	positions, err := in.positions(line)
	if err != nil || len(positions) < 2 {
		return err
	}
	if of.Route == "ferry" {
		in.out.Ferries = append(in.out.Ferries, positions)
	} else {
		in.out.Roads = append(in.out.Roads, positions)
	}
	return nil
}

func (in *reader) polygon(rings [][][]float64, of properties) error {
	for i, ring := range rings {
		positions, err := in.positions(ring)
		if err != nil {
			return err
		}
		if n := len(positions); n > 1 && positions[0] == positions[n-1] {
			positions = positions[:n-1]
		}
		switch {
		case len(positions) < 3:
		case i > 0 || of.Natural == "water":
			in.out.Water = append(in.out.Water, positions)
		default:
			in.out.Land = append(in.out.Land, positions)
		}
	}
	return nil
}

func (in *reader) positions(line [][]float64) ([]Position, error) {
	positions := make([]Position, len(line))
	var err error
	for i, at := range line {
		if positions[i], err = in.position(at); err != nil {
			return nil, err
		}
	}
	return positions, nil
}

// position reads longitude and latitude; a height after them is left out.
func (in *reader) position(at []float64) (Position, error) {
	if in.count++; in.count > MostPositions {
		return Position{}, refusal.New(refusal.Invalid, fmt.Sprintf("The outline file has more than %d points.", MostPositions),
			"Cut it to the part of the country you serve, then take it in again.")
	}
	if len(at) < 2 {
		return Position{}, unreadable("A position has fewer than two numbers.", nil)
	}
	p := Position{Lat: at[1], Lon: at[0]}
	const mercator = 85.05 // beyond it a map of this kind has no end
	if !(math.Abs(p.Lat) <= mercator && math.Abs(p.Lon) <= 180) {
		return p, unreadable(fmt.Sprintf("%g, %g is no longitude and latitude.", at[0], at[1]), nil)
	}
	return p, nil
}
