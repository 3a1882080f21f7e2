// Package gas knows oxygen in a cylinder: its units, the sizes in use, how
// much gas a gauge reading stands for, and how many minutes that lasts.
//
// Pressure is gauge pressure at every border of the package and absolute
// inside it. Litres are litres of gas at 70 °F and 14.696 psia, the reference
// of the labels in North America.
//
// The package is pure: it reads no clock and no file, and imports only the
// standard library. It says how long gas lasts; it never says what flow a
// person should have.
package gas

import (
	"math"
	"strconv"
	"strings"
)

// Pressure is a gauge pressure in pascals: zero is the pressure of the air
// outside.
type Pressure float64

const (
	pascalsPerPSI = 6894.757293168 // NIST SP 811, table B.8
	pascalsPerBar = 1e5            // by definition
	atmosphere    = 101325.0       // Pa: 14.696 psia, what a gauge at zero still stands for
)

// PSI returns a gauge pressure given in pounds per square inch.
func PSI(v float64) Pressure { return Pressure(v * pascalsPerPSI) }

// Bar returns a gauge pressure given in bar.
func Bar(v float64) Pressure { return Pressure(v * pascalsPerBar) }

// KPa returns a gauge pressure given in kilopascals.
func KPa(v float64) Pressure { return Pressure(v * 1e3) }

// MPa returns a gauge pressure given in megapascals.
func MPa(v float64) Pressure { return Pressure(v * 1e6) }

// PSI returns p in pounds per square inch.
func (p Pressure) PSI() float64 { return float64(p) / pascalsPerPSI }

// Bar returns p in bar.
func (p Pressure) Bar() float64 { return float64(p) / pascalsPerBar }

// KPa returns p in kilopascals.
func (p Pressure) KPa() float64 { return float64(p) / 1e3 }

// Absolute returns the absolute pressure in pascals that the gauge pressure p
// stands for at sea level.
func (p Pressure) Absolute() float64 { return float64(p) + atmosphere }

// String returns p in whole psi, as "1,400 psi".
func (p Pressure) String() string { return grouped(p.PSI()) + " psi" }

// InBar returns p in whole bar, as "97 bar".
func (p Pressure) InBar() string { return grouped(p.Bar()) + " bar" }

// Litres is an amount of oxygen gas in litres at 70 °F and 14.696 psia.
type Litres float64

// String returns l in whole litres, as "682 L".
func (l Litres) String() string { return grouped(float64(l)) + " L" }

// Flow is a continuous flow in litres a minute.
type Flow float64

// String returns f to the nearest thousandth, as "4 L/min" or "0.125 L/min".
func (f Flow) String() string { return trimmed(float64(f), 3) + " L/min" }

// Celsius is a temperature in degrees Celsius.
type Celsius float64

// Room is 70 °F, the temperature the contents on a label are stated at.
const Room Celsius = (70 - 32) / 1.8

// Fahrenheit returns a temperature given in degrees Fahrenheit.
func Fahrenheit(v float64) Celsius { return Celsius((v - 32) / 1.8) }

// String returns t to the nearest tenth, as "21.1 °C".
func (t Celsius) String() string { return trimmed(float64(t), 1) + " °C" }

func (t Celsius) kelvin() float64 { return float64(t) + 273.15 }

// SizeCode names a cylinder size by region and letter, as "US-E".
type SizeCode string

// Letter returns how the size is called where the region is understood.
func (c SizeCode) Letter() string {
	if s, found := LookUp(c); found {
		return s.Letter
	}
	if _, letter, cut := strings.Cut(string(c), "-"); cut {
		return letter
	}
	return string(c)
}

// trimmed writes v with at most the given number of decimals.
func trimmed(v float64, decimals int) string {
	unit := math.Pow10(decimals)
	v = math.Round(v*unit) / unit
	if v == 0 {
		return "0" // never "-0"
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// grouped writes v as a whole number with its thousands set apart.
func grouped(v float64) string {
	digits := trimmed(v, 0)
	sign := ""
	if rest, negative := strings.CutPrefix(digits, "-"); negative {
		sign, digits = "-", rest
	}
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + "," + digits[i:]
	}
	return sign + digits
}
