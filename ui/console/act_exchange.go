package console

import (
	"context"
	"fmt"
	"strconv"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
	"lungwort/ui/finder"
)

// exchange is an exchange with a plant as a command line can give it.
type exchange struct {
	Plant   string             `act:"plant" help:"who fills"`
	Depot   string             `act:"depot" help:"where the truck stands"`
	Driver  string             `act:"driver,optional" help:"who signs for the plant"`
	Slip    string             `act:"slip,optional" help:"number of the plant's slip"`
	Out     []inventory.ItemID `act:"out,optional" help:"go out: tags or serials, comma between"`
	In      []string           `act:"in,optional" help:"come in: tags or serials, comma between"`
	Lots    []string           `act:"lots,optional" help:"of what comes in, in their order; one for all"`
	Made    time.Time          `act:"made,optional" help:"day on the labels"`
	Gauges  []gas.Pressure     `act:"gauges,optional" help:"of the first that come in, in their order"`
	Owner   string             `act:"owner,optional" help:"of serials the book does not know"`
	Size    gas.SizeCode       `act:"size,optional" help:"of serials the book does not know, as US-E"`
	OutMore []string           `act:"out-more,optional" help:"on the slip, not scanned: COUNT:SIZE:OWNER, comma between"`
	InMore  []string           `act:"in-more,optional" help:"on the slip, not scanned: COUNT:SIZE:OWNER, comma between"`
	Later   bool               `act:"later,optional" help:"what goes out comes back another day"`
	Accept  bool               `act:"accept,optional" help:"sign with the exceptions"`
}

func exchanged(ctx context.Context, desk *store.Desk, v any) (delivery.Act, error) {
	f := v.(*exchange)
	deed := delivery.Exchange{
		Plant: f.Plant, Depot: f.Depot, Driver: f.Driver, Slip: f.Slip, Out: f.Out, Later: f.Later, Accept: f.Accept,
	}
	if len(f.Gauges) > len(f.In) {
		return nil, refusal.New(refusal.Invalid, "There are more gauge readings than cylinders that come in.", "Give the readings in the order of the cylinders.")
	}
	if len(f.Lots) > 1 && len(f.Lots) != len(f.In) {
		return nil, refusal.New(refusal.Invalid, fmt.Sprintf("%d lots for %d cylinders.", len(f.Lots), len(f.In)), "Give one lot for all, or one for each.")
	}
	for n, text := range f.In {
		one, err := receivedOf(ctx, desk, text, f)
		if err != nil {
			return nil, err
		}
		switch {
		case len(f.Lots) == 1:
			one.Lot = f.Lots[0]
		case len(f.Lots) > 1:
			one.Lot = f.Lots[n]
		}
		if n < len(f.Gauges) {
			one.Gauge = &f.Gauges[n]
		}
		one.Made = f.Made
		deed.In = append(deed.In, one)
	}
	var err error
	if deed.OutMore, err = counted(f.OutMore); err != nil {
		return nil, err
	}
	deed.InMore, err = counted(f.InMore)
	return deed, err
}

// receivedOf looks up one that comes in; a serial the book does not know is of
// the owner and size given.
func receivedOf(ctx context.Context, desk *store.Desk, text string, f *exchange) (delivery.Received, error) {
	item, err := finder.Item(ctx, desk, text)
	switch {
	case err == nil:
		return delivery.Received{Item: item.ID}, nil
	case refusal.KindOf(err) == refusal.NotFound && f.Size != "" && !finder.OurTag(text):
		return delivery.Received{Serial: finder.Serial(text), Owner: f.Owner, Size: f.Size}, nil
	}
	return delivery.Received{}, err
}

func counted(texts []string) ([]inventory.Counted, error) {
	var list []inventory.Counted
	for _, text := range texts {
		parts := strings.SplitN(text, ":", 3)
		n, err := strconv.Atoi(parts[0])
		if err != nil || n < 1 || len(parts) < 3 {
			return nil, refusal.New(refusal.Invalid, fmt.Sprintf("%q is no count.", text), "Write COUNT:SIZE:OWNER, as 2:US-E:Skerry.")
		}
		list = append(list, inventory.Counted{Count: n, Size: gas.SizeCode(parts[1]), Owner: parts[2]})
	}
	return list, nil
}
