// Package outlook says how long loans last, how many discharges come, and
// whether the stock will do. It is pure: durations and counts in, chances
// out. Loans that are still open are censored, never short: leaving them out
// would order too little exactly when people stay on oxygen for long.
package outlook

import (
	"cmp"
	"math"
	"slices"
)

// Days is a duration in days of 24 hours.
type Days float64

// Stay is how long one stage of a loan has lasted. A stay that has not ended
// is censored: it is known to be longer than Length.
type Stay struct {
	Length Days
	Ended  bool
}

// Step is a length at which stays ended.
type Step struct {
	Length Days
	AtRisk int     // stays known to have lasted this long
	Ended  int     // of those, ended at this length
	Beyond float64 // share that lasts longer than Length
	Error  float64 // Greenwood's standard error of Beyond
}

// Curve is the share of stays that last longer than a length, a step function
// that starts at 1.
type Curve struct {
	Steps []Step
	Stays int  // behind the curve
	Ended int  // of those
	Last  Days // the longest stay seen, ended or not
}

// Estimate returns the product-limit estimate of how long stays last.
// Source: Kaplan and Meier, Journal of the American Statistical Association
// 53, 1958; the error is Greenwood's of 1926. A stay censored at a length at
// which another ended counts as at risk there.
func Estimate(stays []Stay) Curve {
	ordered := slices.Clone(stays)
	slices.SortFunc(ordered, func(a, b Stay) int { return cmp.Compare(a.Length, b.Length) })
	c := Curve{Stays: len(ordered)}
	if len(ordered) > 0 {
		c.Last = ordered[len(ordered)-1].Length
	}
	share, variance := 1.0, 0.0
	for i := 0; i < len(ordered); {
		length, risk, ended := ordered[i].Length, len(ordered)-i, 0
		for ; i < len(ordered) && ordered[i].Length == length; i++ {
			if ordered[i].Ended {
				ended++
			}
		}
		if ended == 0 {
			continue
		}
		c.Ended += ended
		share *= 1 - float64(ended)/float64(risk)
		variance += float64(ended) / (float64(risk) * float64(risk-ended)) // infinite at the last
		step := Step{Length: length, AtRisk: risk, Ended: ended, Beyond: share}
		if risk > ended {
			step.Error = share * math.Sqrt(variance)
		}
		c.Steps = append(c.Steps, step)
	}
	return c
}

// Published returns a curve of log-normal stays with a median and a spread of
// the logarithm, in steps of half a day: what is assumed while too few loans
// have ended to say.
func Published(median Days, spread float64) Curve {
	var c Curve
	for length := Days(0.5); ; length += 0.5 {
		beyond := 0.5 * math.Erfc(math.Log(float64(length/median))/(spread*math.Sqrt2))
		c.Last = length
		if beyond < 1e-4 {
			c.Steps = append(c.Steps, Step{Length: length})
			return c
		}
		c.Steps = append(c.Steps, Step{Length: length, Beyond: beyond})
	}
}

// upTo returns the number of steps at lengths up to one.
func (c Curve) upTo(length Days) int {
	n, _ := slices.BinarySearchFunc(c.Steps, length, func(s Step, l Days) int {
		if s.Length <= l {
			return -1
		}
		return 1
	})
	return n
}

// Beyond returns the share of stays that last longer than a length.
func (c Curve) Beyond(length Days) float64 {
	n := c.upTo(length)
	if n == 0 {
		return 1
	}
	return c.Steps[n-1].Beyond
}

// Band returns the 95 % band of Beyond at a length, from the complementary
// log-log transform, which keeps it between 0 and 1. Where nothing is known
// of the error the band is everything.
func (c Curve) Band(length Days) (low, high float64) {
	n := c.upTo(length)
	if n == 0 {
		return 1, 1
	}
	s := c.Steps[n-1]
	if s.Error == 0 || s.Beyond <= 0 || s.Beyond >= 1 {
		return 0, 1
	}
	width := 1.959964 * s.Error / (s.Beyond * math.Abs(math.Log(s.Beyond)))
	return math.Pow(s.Beyond, math.Exp(width)), math.Pow(s.Beyond, math.Exp(-width))
}

// Quantile returns the length by which a share of stays has ended, and false
// when so many stays are still open that nobody can know.
func (c Curve) Quantile(share float64) (Days, bool) {
	for _, s := range c.Steps {
		if s.Beyond <= 1-share+1e-12 {
			return s.Length, true
		}
	}
	return 0, false
}

// Mean returns the mean length of stays, each counted up to a limit at most.
func (c Curve) Mean(limit Days) Days {
	mean, from, beyond := Days(0), Days(0), 1.0
	for _, s := range c.Steps {
		if s.Length >= limit {
			break
		}
		mean += (s.Length - from) * Days(beyond)
		from, beyond = s.Length, s.Beyond
	}
	return mean + (limit-from)*Days(beyond)
}

// EndsWithin returns the chance that a stay which has lasted for an age ends
// within some more days. Past the longest stay that ended nobody knows, and
// the chance is 0: the careful side for a stock that waits for returns.
func (c Curve) EndsWithin(age, more Days) float64 {
	still := c.Beyond(age)
	if still <= 0 || more < 0 {
		return 0
	}
	return 1 - c.Beyond(age+more)/still
}
