package console

import (
	"context"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
)

// The forms of acts whose own fields are too deep for a command line.
type (
	enrol struct {
		Kind     inventory.Kind `act:"kind" help:"cylinder, regulator, concentrator, oximeter, cart or liquid vessel"`
		Serial   string         `act:"serial" help:"as stamped"`
		Model    string         `act:"model,optional" help:"maker's model"`
		Owner    string         `act:"owner,optional" help:"whose it is; empty: the programme's"`
		Size     gas.SizeCode   `act:"size,optional" help:"of a cylinder, as US-E"`
		Contents *gas.Litres    `act:"contents,optional" help:"of this cylinder by its own label, as 660L"`
		Full     *gas.Pressure  `act:"full,optional" help:"full pressure stamped on this cylinder, as 1900psi"`
		Water    *gas.Litres    `act:"water,optional" help:"water volume stamped on this cylinder, as 4.6L"`
		Rated    *gas.Flow      `act:"rated,optional" help:"most a concentrator gives"`
		Depot    string         `act:"depot" help:"where it is"`
		Gauge    *gas.Pressure  `act:"gauge,optional" help:"gauge of a cylinder"`
		Hours    *float64       `act:"hours,optional" help:"hours meter"`
		Lot      string         `act:"lot,optional" help:"of the fill"`
		Ready    bool           `act:"ready,optional" help:"clean, tested, ready to lend"`

		Valve   string         `act:"valve,optional" help:"of a cylinder, or what a regulator fits: post, threaded or integral"`
		Seal    string         `act:"seal,optional" help:"of a regulator"`
		Volts   *int           `act:"volts,optional" help:"mains a concentrator is made for"`
		Pool    string         `act:"pool,optional" help:"number written on an oximeter"`
		Carries gas.SizeCode   `act:"carries,optional" help:"cylinder size a cart is for, as US-E"`
		Tare    *gas.Kilograms `act:"tare,optional" help:"empty weight of a liquid vessel, as 23.1kg"`
		Holds   *gas.Kilograms `act:"holds,optional" help:"liquid in it when full"`
		Loses   *gas.Kilograms `act:"loses,optional" help:"evaporation a day, the maker's figure"`
		Weight  *gas.Kilograms `act:"weight,optional" help:"of a liquid vessel on the scale"`
	}
	register struct {
		Family     string         `act:"family" help:"family name"`
		Given      string         `act:"given,optional" help:"given name"`
		Record     string         `act:"record,optional" help:"hospital record number"`
		Phone      string         `act:"phone,optional" help:"phone number"`
		Language   string         `act:"language,optional" help:"language spoken"`
		Born       string         `act:"born,optional" help:"birth date, as 1941-05-17"`
		Street     string         `act:"street" help:"where they sleep tonight"`
		Town       string         `act:"town,optional" help:"town"`
		Postcode   string         `act:"postcode,optional" help:"postcode; a US one is looked up on the map"`
		Area       string         `act:"area,optional" help:"area of the programme"`
		Lat        *float64       `act:"lat,optional" help:"latitude, degrees"`
		Lon        *float64       `act:"lon,optional" help:"longitude, degrees"`
		Stairs     *float64       `act:"stairs,optional" help:"floors to climb without a lift"`
		Mains      delivery.Mains `act:"mains,optional" help:"'mains', 'prepaid meter' or 'no mains'"`
		Line       string         `act:"line,optional" help:"power line"`
		Cooling    asking         `act:"cooling,optional" help:"the home has cooling: yes or no"`
		Registered asking         `act:"registered,optional" help:"the power company knows of the machine: yes or no"`
	}
	moveHome struct {
		Person   inventory.PersonID `act:"person" help:"record number, name or id"`
		Street   string             `act:"street" help:"where they sleep from now on"`
		Town     string             `act:"town,optional" help:"town"`
		Postcode string             `act:"postcode,optional" help:"postcode; a US one is looked up on the map"`
		Area     string             `act:"area,optional" help:"area of the programme"`
		Lat      *float64           `act:"lat,optional" help:"latitude, degrees"`
		Lon      *float64           `act:"lon,optional" help:"longitude, degrees"`
		Mains    delivery.Mains     `act:"mains,optional" help:"'mains', 'prepaid meter' or 'no mains'"`
		Stairs   int                `act:"stairs,optional" help:"floors to climb without a lift"`
		From     time.Time          `act:"from,optional" help:"begin of a stay that is still to come; left out: now"`
		Until    time.Time          `act:"until,optional" help:"end of a stay; left out: for good"`
		Along    []inventory.ItemID `act:"along,optional" help:"what goes along on a stay: tags or serials"`
		Mover    string             `act:"mover,optional" help:"who moves it: 'us' opens a task for a vehicle"`
	}
	discharge struct {
		Person   inventory.PersonID `act:"person" help:"record number, name or id"`
		Ward     string             `act:"ward,optional" help:"ward they leave from"`
		Items    []inventory.ItemID `act:"items" help:"handed over: tags or serials, comma between"`
		Gauges   []gas.Pressure     `act:"gauges,optional" help:"of the cylinders among the items, in their order"`
		Parts    []string           `act:"parts,optional" help:"small parts that go along, comma between: key, seal washer, stand"`
		Bring    []inventory.ItemID `act:"bring,optional" help:"brought to the home: tags or serials"`
		Opened   time.Time          `act:"opened,optional" help:"when the valve was opened"`
		Leaves   time.Time          `act:"leaves,optional" help:"when they leave the ward"`
		Arrives  time.Time          `act:"arrives,optional" help:"when the delivery is promised"`
		Ride     *time.Duration     `act:"ride,optional" help:"the way home, as 25min; left out: by the roads"`
		SetUp    *time.Duration     `act:"set-up,optional" help:"at home; left out: as the programme sets"`
		WarmUp   *time.Duration     `act:"warm-up,optional" help:"of the concentrator; left out: as the programme sets"`
		Supplies string             `act:"supplies,optional" help:"that go along, as '2 cannula lot C77, 1 extension tubing'"`
		Store    inventory.Place    `act:"store,optional" help:"where they are taken from; left out: the ward's store, else the first depot"`
		Agreed   []string           `act:"agreed,optional" help:"what they agreed to, comma between: home visits"`
		Refused  []string           `act:"declined,optional" help:"what they declined, comma between: fire service notice"`
	}
	visit struct {
		Person   inventory.PersonID `act:"person" help:"record number, name or id"`
		Run      inventory.RunID    `act:"run,optional" help:"id of the run"`
		Left     []inventory.ItemID `act:"left,optional" help:"tags or serials left"`
		Took     []inventory.ItemID `act:"took,optional" help:"tags or serials taken"`
		Gauges   []gas.Pressure     `act:"gauges,optional" help:"of the cylinders left, then taken, in their order"`
		Oxygen   *float64           `act:"oxygen,optional" help:"oxygen of the concentrator, percent"`
		Running  bool               `act:"running,optional" help:"the concentrator runs at the ordered flow"`
		Supplies string             `act:"supplies,optional" help:"given there, as '2 cannula lot C77, 1 extension tubing'"`
		Store    inventory.Place    `act:"store,optional" help:"where they are from; left out: the vehicle's depot, else the first"`
		Failed   string             `act:"failed,optional" help:"why nothing could be done"`
		Next     time.Time          `act:"next,optional" help:"the next try"`
	}
)

func enrolled(_ context.Context, _ *store.Desk, v any) (delivery.Act, error) {
	f := v.(*enrol)
	spec := inventory.Spec{Kind: f.Kind, Serial: f.Serial, Model: f.Model, Owner: f.Owner, Size: f.Size}
	plate := delivery.Describe{
		Rated: f.Rated, Valve: f.Valve, Seal: f.Seal, Volts: f.Volts, Pool: f.Pool, Carries: f.Carries, Tare: f.Tare, Holds: f.Holds, Loses: f.Loses,
		Contents: f.Contents, Full: f.Full, Water: f.Water,
	}
	return delivery.Enrol{
		Spec: plate.On(spec), Depot: f.Depot, Gauge: f.Gauge, Hours: f.Hours, Weight: f.Weight, Lot: f.Lot, Cleared: f.Ready,
	}, nil
}

func registered(_ context.Context, _ *store.Desk, v any) (delivery.Act, error) {
	f := v.(*register)
	person := delivery.Person{Family: f.Family, Given: f.Given, Record: f.Record, Language: f.Language, Born: f.Born}
	if f.Phone != "" {
		person.Phones = []delivery.Phone{{Number: f.Phone}}
	}
	home := delivery.Address{Street: f.Street, Town: f.Town, Postcode: f.Postcode, Mains: f.Mains, Line: f.Line, Cooling: string(f.Cooling), Registered: string(f.Registered)}
	home.Point.Area = f.Area
	if f.Stairs != nil {
		home.Stairs = int(*f.Stairs)
	}
	if f.Lat != nil && f.Lon != nil {
		home.Point.Lat, home.Point.Lon = *f.Lat, *f.Lon
	}
	return delivery.Register{Person: person, Address: home}, nil
}

func movedHome(_ context.Context, _ *store.Desk, v any) (delivery.Act, error) {
	f := v.(*moveHome)
	home := delivery.Address{Street: f.Street, Town: f.Town, Postcode: f.Postcode, Mains: f.Mains, Stairs: f.Stairs}
	home.Point.Area = f.Area
	if f.Lat != nil && f.Lon != nil {
		home.Point.Lat, home.Point.Lon = *f.Lat, *f.Lon
	}
	return delivery.Relocate{Person: f.Person, Address: home, From: f.From, Until: f.Until, Along: f.Along, Mover: f.Mover}, nil
}

// gauges deals out readings to the cylinders among items, in order.
type gauges struct {
	ctx  context.Context
	desk *store.Desk
	left []gas.Pressure
}

func (g *gauges) of(id inventory.ItemID) (*gas.Pressure, error) {
	page, err := g.desk.ItemPage(g.ctx, id)
	if err != nil || page.Item.Spec.Kind != inventory.Cylinder || len(g.left) == 0 {
		return nil, err
	}
	first := g.left[0]
	g.left = g.left[1:]
	return &first, nil
}

func (g *gauges) used() error {
	if len(g.left) > 0 {
		return refusal.New(refusal.Invalid, "There are more gauge readings than cylinders.", "Give one reading for each cylinder, in order.")
	}
	return nil
}

func discharged(ctx context.Context, desk *store.Desk, v any) (delivery.Act, error) {
	f := v.(*discharge)
	deed := delivery.Discharge{
		Person: f.Person, Ward: f.Ward, Bring: f.Bring,
		Opened: f.Opened, Leaves: f.Leaves, Arrives: f.Arrives,
		Ride: f.Ride, SetUp: f.SetUp, WarmUp: f.WarmUp,
	}
	deed.Consents = make(map[string]bool, len(f.Agreed)+len(f.Refused))
	for _, to := range f.Agreed {
		deed.Consents[to] = true
	}
	for _, to := range f.Refused {
		deed.Consents[to] = false // who is entered twice has declined
	}
	supplies, err := delivery.ReadSupplies(f.Supplies)
	if err != nil {
		return nil, err
	}
	deed.Supplies, deed.SuppliesFrom = supplies, f.Store
	readings := &gauges{ctx, desk, f.Gauges}
	for _, id := range f.Items {
		gauge, err := readings.of(id)
		if err != nil {
			return nil, err
		}
		deed.HandOver = append(deed.HandOver, delivery.Piece{Item: id, Gauge: gauge, With: f.Parts})
	}
	return deed, readings.used()
}

func visited(ctx context.Context, desk *store.Desk, v any) (delivery.Act, error) {
	f := v.(*visit)
	deed := delivery.Visit{
		Run: f.Run, Person: f.Person, Running: f.Running, Oxygen: f.Oxygen, Failed: f.Failed, Next: f.Next, From: f.Store,
	}
	var err error
	if deed.Supplies, err = delivery.ReadSupplies(f.Supplies); err != nil {
		return nil, err
	}
	readings := &gauges{ctx, desk, f.Gauges}
	for _, id := range f.Left {
		gauge, err := readings.of(id)
		if err != nil {
			return nil, err
		}
		deed.Left = append(deed.Left, delivery.Piece{Item: id, Gauge: gauge})
	}
	for _, id := range f.Took {
		gauge, err := readings.of(id)
		if err != nil {
			return nil, err
		}
		deed.Took = append(deed.Took, delivery.Taken{Item: id, Gauge: gauge})
	}
	return deed, readings.used()
}
