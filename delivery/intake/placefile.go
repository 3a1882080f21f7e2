package intake

import (
	"context"
	"fmt"
	"strings"

	"lungwort/delivery"
	"lungwort/delivery/gazetteer"
	"lungwort/inventory/refusal"
	"lungwort/inventory/sheet"
)

// placeColumns is what the columns of a place file can mean.
var placeColumns = []sheet.Heading{
	{Key: "name", Synonyms: []string{"street", "address", "place", "street name", "place name"}},
	{Key: "town", Synonyms: []string{"city", "village"}},
	{Key: "postcode", Synonyms: postcodeWords},
	{Key: "area", Synonyms: []string{"island", "district", "zone", "region"}},
	{Key: "latitude", Synonyms: []string{"lat"}},
	{Key: "longitude", Synonyms: []string{"lon", "long", "lng"}},
}

var postcodeWords = []string{"zip", "zip code", "zipcode", "postal code", "post code"}

// ReadPlaces reads a place file: a sheet whose rows are a house, a street or a
// town each, with the columns Name, Latitude and Longitude in degrees, and Town,
// Postcode and Area where they are known. A row that can't be read refuses the
// whole file, with its number.
func ReadPlaces(ctx context.Context, path string) (delivery.TakePlaces, error) {
	var act delivery.TakePlaces
	tables, err := sheet.ReadFile(ctx, path)
	if err != nil {
		return act, err
	}
	for _, t := range tables {
		act.File = t.File
		mapped, err := sheet.Map(t, placeColumns, []string{"name", "latitude", "longitude"})
		if err != nil {
			return act, err
		}
		if err := settled(t, mapped); err != nil {
			return act, err
		}
		for _, row := range mapped.Body(t) {
			place, err := placeOf(row, mapped)
			if err != nil {
				return act, inRow(t, row, err)
			}
			act.Places = append(act.Places, place)
		}
	}
	return act, nil
}

func placeOf(row sheet.Row, m sheet.Mapping) (p gazetteer.Place, err error) {
	text := func(key string) string {
		if column, has := m.Columns[key]; has {
			return strings.TrimSpace(row.Cell(column).Text)
		}
		return ""
	}
	p = gazetteer.Place{Name: text("name"), Town: text("town"), Postcode: text("postcode"), Area: text("area")}
	if p.Name == "" {
		return p, fmt.Errorf("the name is missing")
	}
	at, err := delivery.ReadPoint(text("latitude") + ", " + text("longitude"))
	p.Lat, p.Lon = at.Lat, at.Lon
	return p, err
}

// settled refuses a sheet whose columns could mean two things.
func settled(t sheet.Table, m sheet.Mapping) error {
	for _, d := range m.Doubtful {
		return refusal.New(refusal.Ask, fmt.Sprintf("%s: %s", t.File, d.Asks), "Name the column plainly, then take the file in again.")
	}
	return nil
}

// inRow refuses a file for one of its rows.
func inRow(t sheet.Table, row sheet.Row, cause error) error {
	return refusal.New(refusal.Invalid, fmt.Sprintf("%s, row %d: %s.", t.File, row.Number, strings.TrimSuffix(cause.Error(), ".")), "Put it right in the file, then take it in again; nothing was kept.")
}
