package console

import (
	"context"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

type stockQuestion struct {
	Kind   inventory.Kind `act:"kind" help:"cylinder, regulator, concentrator or oximeter"`
	Size   gas.SizeCode   `act:"size,optional" help:"cylinder size"`
	Rated  gas.Flow       `act:"rated,optional" help:"of a concentrator: at least"`
	Needed int            `act:"needed" help:"how many must be ready"`
}

func askStock(ctx context.Context, desk *store.Desk, q *stockQuestion, at time.Time) (delivery.Answer, error) {
	return desk.StockAnswer(ctx, delivery.Wanted{Kind: q.Kind, Size: q.Size, Rated: q.Rated, Count: q.Needed}, at)
}

type fillQuestion struct {
	Item inventory.ItemID `act:"item" help:"a cylinder called full: tag or serial"`
}

func askFill(ctx context.Context, desk *store.Desk, q *fillQuestion, at time.Time) (delivery.Answer, error) {
	return desk.LowFillAnswer(ctx, q.Item, at)
}
