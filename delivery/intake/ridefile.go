package intake

import (
	"context"
	"fmt"

	"lungwort/delivery"
	"lungwort/inventory/sheet"
)

// rideColumns is what the columns of a file of rides can mean.
var rideColumns = []sheet.Heading{
	{Key: "from", Synonyms: []string{"origin", "start"}},
	{Key: "to", Synonyms: []string{"destination", "end"}},
	{Key: "minutes", Synonyms: []string{"min", "time", "duration", "takes"}},
	{Key: "km", Synonyms: []string{"distance", "kilometres", "kilometers", "way"}},
}

// ReadRides reads a file of rides: a sheet with the columns From, To, Minutes
// and Km, a row for each way. A row that can't be read refuses the whole file,
// with its number.
func ReadRides(ctx context.Context, path string) (delivery.TakeRides, error) {
	var act delivery.TakeRides
	tables, err := sheet.ReadFile(ctx, path)
	if err != nil {
		return act, err
	}
	for _, t := range tables {
		act.File = t.File
		mapped, err := sheet.Map(t, rideColumns, []string{"from", "to", "minutes", "km"})
		if err != nil {
			return act, err
		}
		if err := settled(t, mapped); err != nil {
			return act, err
		}
		for _, row := range mapped.Body(t) {
			ride, err := rideOf(row, mapped)
			if err != nil {
				return act, inRow(t, row, err)
			}
			act.Rides = append(act.Rides, ride)
		}
	}
	return act, nil
}

// ReadMapTable reads a place file or a file of rides, as its columns say.
func ReadMapTable(ctx context.Context, path string) (delivery.Act, error) {
	tables, err := sheet.ReadFile(ctx, path)
	if err != nil {
		return nil, err
	}
	for _, t := range tables {
		if _, err := sheet.Map(t, rideColumns, []string{"from", "to", "minutes"}); err == nil {
			return ReadRides(ctx, path)
		}
	}
	return ReadPlaces(ctx, path)
}

func rideOf(row sheet.Row, m sheet.Mapping) (ride delivery.GivenRide, err error) {
	ride = delivery.GivenRide{Row: row.Number, From: row.Cell(m.Columns["from"]).Text, To: row.Cell(m.Columns["to"]).Text}
	if ride.Minutes, err = inUnit(row, m, "minutes", "min"); err == nil {
		ride.Km, err = inUnit(row, m, "km", "km")
	}
	return ride, err
}

// inUnit reads a number that may carry its own unit and no other.
func inUnit(row sheet.Row, m sheet.Mapping, key, unit string) (float64, error) {
	cell := row.Cell(m.Columns[key])
	v, words, found, err := sheet.ParseNumber(cell)
	if err != nil || !found || words != "" && words != unit {
		return 0, fmt.Errorf("“%s” is no number of %s", cell.Text, unit)
	}
	return v, nil
}
