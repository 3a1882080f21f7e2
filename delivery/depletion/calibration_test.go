package depletion

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"
)

const homes = 12000 // half teach, half prove

func simulated(w world, seed uint64, n int) []lived {
	r := rand.New(rand.NewPCG(seed, 14))
	all := make([]lived, n)
	for i := range all {
		all[i] = w.onCylinder(r)
	}
	return all
}

// score is the mean logarithm of the chance the forecast gave to what
// happened, to within 3 % of the time.
func score(all []lived, p priors) float64 {
	var sum float64
	for _, l := range all {
		s := l.count(usual)
		o := l.outlook(s, usual, p)
		m := l.dry.Sub(s.start).Minutes()
		sum += math.Log(1e-5 + o.emptied(m*1.03) - o.emptied(m/1.03))
	}
	return sum / float64(len(all))
}

type tally struct{ covered, early, late, low float64 }

func coverage(all []lived, p priors) tally {
	var t tally
	each := 1 / float64(len(all))
	for _, l := range all {
		s := l.count(usual)
		u := l.outlook(s, usual, p).emptied(l.dry.Sub(s.start).Minutes())
		switch {
		case u < 0.05:
			t.early += each
		case u > 0.95:
			t.late += each
		default:
			t.covered += each
		}
		if u < 0.01 {
			t.low += each
		}
	}
	return t
}

func TestFit(t *testing.T) {
	all := simulated(ordinary, 1, homes)
	train, proof := all[:homes/2], all[homes/2:]
	p := learnt
	t.Logf("%+v %v %+v", p, score(train, p), coverage(proof, p))
	params := []*float64{&p.pace, &p.spread, &p.steady, &p.high, &p.observed, &p.overuse, (*float64)(&p.gaugeError), &p.fillError}
	best := score(train, p)
	for step := 1.3; step > 1.02; step = 1 + (step-1)/1.7 {
		for _, x := range params {
			for _, f := range []float64{step, 1 / step} {
				was := *x
				if x == &p.pace {
					f = 1 + (f-1)/5
				}
				*x *= f
				if p.observed > 0.98 {
					p.observed = 0.98
				}
				if s := score(train, p); s > best {
					best = s
				} else {
					*x = was
				}
			}
		}
		t.Logf("%.3f %+v %v", step, p, best)
	}
	t.Logf("train %+v", coverage(train, p))
	t.Logf("proof %+v", coverage(proof, p))
	t.Logf("shifted %+v", coverage(simulated(shifted, 2, 4000), p))
}

func TestConc(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 14))
	var said, saw, n [11]float64
	for range 4000 {
		c := ordinary.onConcentrator(r)
		f := Predict(c.Household, usual)
		at := night.Add(time.Duration(r.IntN(daysFollowed*minutesPerDay)) * time.Minute)
		p := f.WithoutBy(at)
		k := int(p * 10)
		n[k]++
		said[k] += p
		if !c.without.IsZero() && c.without.Before(at) {
			saw[k]++
		}
	}
	for k := range n {
		t.Logf("%d n %v said %.3f saw %.3f", k, n[k], said[k]/n[k], saw[k]/n[k])
	}
}
