package route

import "math"

// dice is a small, fast and repeatable source of chance: SplitMix64 (Steele, Lea & Flood, OOPSLA 2014).
type dice uint64

func (d *dice) next() uint64 {
	*d += 0x9e3779b97f4a7c15
	z := uint64(*d)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// below gives a whole number from 0 to n-1.
func (d *dice) below(n int) int { return int(d.next() >> 32 * uint64(n) >> 32) }

// share gives a number from 0 to just under 1.
func (d *dice) share() float64 { return float64(d.next()>>11) / (1 << 53) }

// heat gives -ln of a share: how far uphill a step of temperature 1 may go.
func (d *dice) heat() float64 { return -math.Log(1 - d.share()) }
