package console

import (
	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/inventory/gas"
)

// orderQuestion is an order as far as it says anything: what is missing is
// part of the answer.
type orderQuestion struct {
	Person   inventory.PersonID `act:"person" help:"record number, name or id"`
	Rest     *gas.Flow          `act:"rest,optional" help:"flow at rest"`
	Exertion *gas.Flow          `act:"exertion,optional" help:"flow on exertion"`
	Asleep   *gas.Flow          `act:"asleep,optional" help:"flow asleep"`
	Hours    *float64           `act:"hours,optional" help:"hours a day"`
	Device   string             `act:"device,optional" help:"cannula, mask"`
	Setting  string             `act:"setting,optional" help:"of a pulse device; never a flow"`
	Bolus    gas.Millilitres    `act:"bolus,optional" help:"of the pulse device at this setting, as 16.5mL"`
	Breaths  float64            `act:"breaths,optional" help:"a minute, with a bolus"`
	Names    string             `act:"names,optional" help:"equipment the order names: concentrator, cylinder; comma between"`
}

// ordered returns the order as far as it says anything.
func (q orderQuestion) ordered() delivery.Ordered {
	o := delivery.Ordered{Device: q.Device, Setting: q.Setting, Bolus: q.Bolus, Breaths: q.Breaths, Names: q.Names}
	for into, from := range map[*gas.Flow]*gas.Flow{&o.Rest: q.Rest, &o.Exertion: q.Exertion, &o.Asleep: q.Asleep} {
		if from != nil {
			*into = *from
		}
	}
	if q.Hours != nil {
		o.Hours = *q.Hours
	}
	return o
}
