package outlook

import "math"

// poisson returns the chance of exactly k arrivals at a mean.
func poisson(mean float64, k int) float64 {
	if mean <= 0 {
		if k == 0 {
			return 1
		}
		return 0
	}
	gamma, _ := math.Lgamma(float64(k + 1))
	return math.Exp(float64(k)*math.Log(mean) - mean - gamma)
}

func poissonUpTo(mean float64, k int) float64 {
	sum := 0.0
	for i := 0; i <= k; i++ {
		sum += poisson(mean, i)
	}
	return min(1, sum)
}

// ShortOf returns the chance that demand with a Poisson mean is above a
// stock.
func ShortOf(mean float64, stock int) float64 { return 1 - poissonUpTo(mean, stock) }

// highestService is the most that Level promises: certainty takes an endless
// stock.
const highestService = 0.9999

// Level returns the smallest stock that meets demand with a Poisson mean in a
// share of the time, at most 99.99 %. In a fleet that lends what it owns, the
// number lent at any moment is Poisson with mean arrivals per day times the
// mean days of a loan, whatever the shape of the loans (the M/G/infinity
// queue).
func Level(mean, service float64) int {
	service = min(service, highestService)
	sum := 0.0
	for stock := 0; ; stock++ {
		if sum += poisson(mean, stock); sum >= service {
			return stock
		}
	}
}

// FillRate returns the share of discharges served at once from a base stock:
// the chance that fewer than the stock are lent when one comes.
func FillRate(mean float64, stock int) float64 { return poissonUpTo(mean, stock-1) }

// Backorders returns the mean number of people who wait at any moment for a
// base stock.
func Backorders(mean float64, stock int) float64 {
	waiting := mean - float64(stock)
	for k := 0; k < stock; k++ {
		waiting += float64(stock-k) * poisson(mean, k)
	}
	return max(0, waiting)
}

// Refused returns the chance that a discharge finds no unit when those that
// find none go elsewhere: Erlang's loss formula B, by the recursion that
// keeps its digits, for a load of arrivals per day times days of a loan.
func Refused(load float64, units int) float64 {
	b := 1.0
	for k := 1; k <= units; k++ {
		b = load * b / (float64(k) + load*b)
	}
	return b
}
