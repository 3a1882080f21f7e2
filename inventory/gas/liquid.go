package gas

import (
	"errors"
	"fmt"
	"math"
)

// Kilograms is a mass of liquid oxygen or of a vessel.
type Kilograms float64

// Pounds returns a mass given in pounds.
func Pounds(v float64) Kilograms { return Kilograms(pounds(v)) }

// gasPerKilogram is the gas at 70 °F and 14.696 psia in one kilogram of
// oxygen, 754 L, or 342 L per pound. The 344 often taught is 860 L per litre
// divided by a rounded 2.5 lb per litre, and overstates by 0.6 %.
var gasPerKilogram = Litres(1000 / room.air)

// LiquidVessel is a reservoir of liquid oxygen. It loses gas all the time,
// whether it is used or not; how much is the maker's figure.
type LiquidVessel struct {
	Tare  Kilograms // empty, with its fittings
	Holds Kilograms // liquid when full
	Loses Kilograms // evaporation a day
}

// ByWeight returns the gas in a vessel from what it weighs on a scale. It is
// the surer way: the liquid's density falls as the vessel warms and vents.
func (v LiquidVessel) ByWeight(scale Kilograms) (Litres, error) {
	if err := v.check(); err != nil {
		return 0, err
	}
	liquid := scale - v.Tare
	if !(liquid >= -v.Holds/50) || liquid > v.Holds*1.05 {
		return 0, fmt.Errorf("%s kg on the scale is not between empty (%s kg) and full (%s kg). Weigh the vessel again without bag or cart",
			trimmed(float64(scale), 1), trimmed(float64(v.Tare), 1), trimmed(float64(v.Tare+v.Holds), 1))
	}
	return max(0, Litres(liquid)*gasPerKilogram), nil
}

// ByLevel returns the gas in a vessel from its level meter, 1 being full.
func (v LiquidVessel) ByLevel(part float64) (Litres, error) {
	if err := v.check(); err != nil {
		return 0, err
	}
	if !(part >= 0) || part > 1 {
		return 0, fmt.Errorf("a level of %s is not between empty (0) and full (1). Read the level meter again", trimmed(part, 2))
	}
	return Litres(part) * Litres(v.Holds) * gasPerKilogram, nil
}

// Minutes returns how long l litres last from now at a flow used for some
// hours of each day, rounded down. Evaporation is counted in full on top of
// the use, which is the careful side.
func (v LiquidVessel) Minutes(l Litres, flow Flow, hoursPerDay float64) (int, error) {
	switch {
	case !(v.Loses >= 0):
		return 0, errors.New("the vessel's evaporation is below zero. Take it from the maker's papers, in kg a day")
	case !(flow >= lowestFlow) || flow > highestFlow:
		return 0, fmt.Errorf("a flow of %s cannot be planned with. Ask what the flow meter shows", flow)
	case !(hoursPerDay > 0) || hoursPerDay > 24:
		return 0, fmt.Errorf("%s hours a day is not between 0 and 24. Ask how long the oxygen is used", trimmed(hoursPerDay, 1))
	}
	perDay := float64(flow)*60*hoursPerDay + float64(v.Loses)*float64(gasPerKilogram)
	return int(math.Floor(math.Max(0, float64(l))/perDay*24*60 + 1e-6)), nil
}

func (v LiquidVessel) check() error {
	if !(v.Tare > 0) || !(v.Holds > 0) {
		return errors.New("the vessel's empty weight and its filling are not known. Read both from its plate")
	}
	return nil
}
