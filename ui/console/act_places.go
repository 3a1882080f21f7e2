package console

import (
	"context"
	"fmt"

	"lungwort/delivery"
	"lungwort/delivery/intake"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/refusal"
)

// What a command says of where homes lie.
type (
	placeFile struct {
		File string `act:"file" help:"spreadsheet with the columns Name, Latitude, Longitude; Town, Area, Postcode"`
	}
	rideFile struct {
		File string `act:"file" help:"spreadsheet with the columns From, To, Minutes, Km: sites, homes or listed places"`
	}
	place struct {
		Person inventory.PersonID `act:"person" help:"record number, name or id"`
		Point  string             `act:"point,optional" help:"latitude, longitude: '36.512, -40.521'"`
		Choose int                `act:"choose,optional" help:"which of the places that may be meant, from 1"`
		Rough  bool               `act:"rough,optional" help:"only about right; left out: confirmed"`
	}
)

func placesTaken(ctx context.Context, _ *store.Desk, v any) (delivery.Act, error) {
	return intake.ReadPlaces(ctx, v.(*placeFile).File)
}

func ridesTaken(ctx context.Context, _ *store.Desk, v any) (delivery.Act, error) {
	return intake.ReadRides(ctx, v.(*rideFile).File)
}

// placed is the place of somebody's home, written or chosen; with neither the
// place it has is confirmed.
func placed(ctx context.Context, desk *store.Desk, v any) (delivery.Act, error) {
	f := v.(*place)
	found, err := desk.PlacesFor(ctx, f.Person)
	if err != nil {
		return nil, err
	}
	act := delivery.Place{Person: f.Person, Address: found.Address.ID, At: found.Address.Point, By: delivery.ByTyping, Rough: f.Rough}
	switch {
	case f.Point != "":
		act.At, err = delivery.ReadPoint(f.Point)
	case f.Choose != 0:
		act, err = found.Choose(f.Choose)
	case !found.Address.Point.Known():
		err = refusal.New(refusal.Ask, fmt.Sprintf("Where %s lies is not known. %s", found.Address.Where(), found.Listed()), "Write --point, or --choose one of them.")
	}
	return act, err
}
