package outlook

import "math"

// counts is a distribution of a whole number: counts[k] is the chance of k.
type counts []float64

// certain is the distribution of a number that is known.
func certain(n int) counts {
	c := make(counts, n+1)
	c[n] = 1
	return c
}

// either adds something that happens with a chance.
func (c counts) either(chance float64) counts {
	if chance <= 0 {
		return c
	}
	sum := make(counts, len(c)+1)
	for k, p := range c {
		sum[k] += p * (1 - chance)
		sum[k+1] += p * chance
	}
	return sum
}

// negligible is the tail of a distribution that is cut off.
const negligible = 1e-9

// arrivals returns the distribution of a number of arrivals with a mean and a
// variance: Poisson when the variance is no larger than the mean, negative
// binomial (a Poisson number whose mean is itself uncertain) when it is.
func arrivals(mean, variance float64) counts {
	chance := func(k int) float64 { return poisson(mean, k) }
	if variance > mean*(1+1e-9) && mean > 0 {
		size := mean * mean / (variance - mean)
		chance = func(k int) float64 { return negativeBinomial(mean, size, k) }
	}
	var c counts
	for k, sum := 0, 0.0; sum < 1-negligible && k < 10000; k++ {
		c = append(c, chance(k))
		sum += c[k]
	}
	return c
}

func negativeBinomial(mean, size float64, k int) float64 {
	a, _ := math.Lgamma(float64(k) + size)
	b, _ := math.Lgamma(size)
	c, _ := math.Lgamma(float64(k + 1))
	return math.Exp(a - b - c + size*math.Log(size/(size+mean)) + float64(k)*math.Log(mean/(size+mean)))
}

// balance is the distribution of what is left when one number is taken from
// another: at[i] is the chance of lowest+i.
type balance struct {
	lowest int
	at     []float64
}

func (c counts) less(other counts) balance {
	b := balance{lowest: 1 - len(other), at: make([]float64, len(c)+len(other)-1)}
	for have, p := range c {
		for need, q := range other {
			b.at[have-need-b.lowest] += p * q
		}
	}
	return b
}

// below returns the chance of less than n.
func (b balance) below(n int) float64 {
	sum := 0.0
	for i := 0; i < min(n-b.lowest, len(b.at)); i++ {
		sum += b.at[i]
	}
	return min(1, sum)
}

// quantile returns the smallest number that is not exceeded with a chance.
func (b balance) quantile(chance float64) int {
	sum := 0.0
	for i, p := range b.at {
		if sum += p; sum >= chance {
			return b.lowest + i
		}
	}
	return b.lowest + len(b.at) - 1
}

func (b balance) mean() float64 {
	sum := 0.0
	for i, p := range b.at {
		sum += p * float64(b.lowest+i)
	}
	return sum
}
