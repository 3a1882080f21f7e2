package gas

// Pressure is a gauge pressure in pascals: zero is the pressure of the air
// outside.
type Pressure float64

const (
	pascalsPerPSI = 6894.757293168 // NIST SP 811, table B.8
	pascalsPerBar = 1e5            // by definition
)

// PSI returns a gauge pressure given in pounds per square inch.
func PSI(v float64) Pressure { return Pressure(v * pascalsPerPSI) }

// Bar returns a gauge pressure given in bar.
func Bar(v float64) Pressure { return Pressure(v * pascalsPerBar) }

// KPa returns a gauge pressure given in kilopascals.
func KPa(v float64) Pressure { return Pressure(v * 1e3) }

// PSI returns p in pounds per square inch.
func (p Pressure) PSI() float64 { return float64(p) / pascalsPerPSI }

// Bar returns p in bar.
func (p Pressure) Bar() float64 { return float64(p) / pascalsPerBar }

// KPa returns p in kilopascals.
func (p Pressure) KPa() float64 { return float64(p) / 1e3 }

// Litres is an amount of oxygen gas in litres at 70 °F and 14.696 psia.
type Litres float64

// Flow is a continuous flow in litres a minute.
type Flow float64

// Celsius is a temperature in degrees Celsius.
type Celsius float64

// SizeCode names a cylinder size by region and letter, as "US-E".
type SizeCode string
