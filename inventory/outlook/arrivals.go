package outlook

import (
	"math"
	"time"
)

// Rhythm is how many discharges come: by weekday and hour, with a trend.
type Rhythm struct {
	share [7]float64     // of a week's discharges, by weekday; sums to 1
	hours [7][24]float64 // share of a weekday's discharges, by hour
	from  time.Time      // of the trend
	level float64        // logarithm of the discharges of a week at from
	slope float64        // of the logarithm, in a week
	// cov is the variance of level, of both, of slope.
	cov   [3]float64
	extra float64 // variance beyond Poisson, as a multiple of the mean; 1 for none
}

// What is believed before anything is seen. Common practice, no source.
const (
	priorSlope   = 0.05 // standard deviation of the weekly trend
	priorLevel   = 2.0  // standard deviation of the logarithm of a week's discharges
	priorWeekday = 1.0  // discharges an even week would add to each weekday's count
	priorHour    = 0.25 // the same for each hour of a weekday
)

// Learn returns the rhythm of discharges seen between two instants. What is
// before or after is left out.
func Learn(seen []time.Time, from, until time.Time) Rhythm {
	r := Rhythm{from: from, extra: 1}
	inside := make([]time.Time, 0, len(seen))
	for _, t := range seen {
		if !t.Before(from) && t.Before(until) {
			inside = append(inside, t.In(from.Location()))
		}
	}
	r.countDays(inside)
	r.fit(weekly(inside, from, until))
	return r
}

func (r *Rhythm) countDays(seen []time.Time) {
	var days [7]float64
	for _, t := range seen {
		days[t.Weekday()]++
		r.hours[t.Weekday()][t.Hour()]++
	}
	for d := range days {
		r.share[d] = (days[d] + priorWeekday) / (float64(len(seen)) + 7*priorWeekday)
		for h := range r.hours[d] {
			r.hours[d][h] = (r.hours[d][h] + priorHour) / (days[d] + 24*priorHour)
		}
	}
}

// week is the number of discharges in one week back from the end; the first
// may be cut short.
type week struct {
	middle float64 // weeks since the start
	span   float64 // weeks
	count  float64
}

func weekly(seen []time.Time, from, until time.Time) []week {
	all := until.Sub(from).Hours() / (7 * 24)
	if all <= 0 {
		return nil
	}
	n := int(math.Ceil(all))
	weeks := make([]week, n)
	for i := range weeks {
		low, high := max(0, all-float64(n-i)), all-float64(n-i-1)
		weeks[i] = week{middle: (low + high) / 2, span: high - low}
	}
	for _, t := range seen {
		at := t.Sub(from).Hours() / (7 * 24)
		i := n - 1 - int(all-at)
		weeks[max(0, min(n-1, i))].count++
	}
	return weeks
}

// fit finds level and slope. Where the weeks differ more than Poisson counts
// would, they are fitted again, each counting so much less (quasi-likelihood;
// Wedderburn, Biometrika 1974;61:439): a few wild weeks are no trend.
func (r *Rhythm) fit(weeks []week) {
	r.regress(weeks)
	if r.spread(weeks); r.extra > 1 {
		r.regress(weeks)
		r.spread(weeks)
	}
}

// regress is a Poisson regression of the weeks' counts with a normal prior on
// level and slope, by Newton's steps.
func (r *Rhythm) regress(weeks []week) {
	total, span := 0.5, 1e-9
	for _, w := range weeks {
		total += w.count
		span += w.span
	}
	centre := 0.0
	if len(weeks) > 0 {
		centre = math.Log(total / max(span, 1))
	}
	r.level = centre
	for range 50 {
		gl, gs := (centre-r.level)/(priorLevel*priorLevel), -r.slope/(priorSlope*priorSlope)
		ll, ls, ss := 1/(priorLevel*priorLevel), 0.0, 1/(priorSlope*priorSlope)
		for _, w := range weeks {
			mean := w.span * math.Exp(r.level+r.slope*w.middle)
			more, weight := (w.count-mean)/r.extra, mean/r.extra
			gl += more
			gs += more * w.middle
			ll, ls, ss = ll+weight, ls+weight*w.middle, ss+weight*w.middle*w.middle
		}
		det := ll*ss - ls*ls
		dl, ds := (ss*gl-ls*gs)/det, (ll*gs-ls*gl)/det
		r.level += dl
		r.slope += ds
		r.cov = [3]float64{ss / det, -ls / det, ll / det}
		if math.Abs(dl)+math.Abs(ds) < 1e-10 {
			break
		}
	}
}

// spread finds how much more the weeks differ than Poisson counts would
// (Pearson's statistic over its degrees of freedom).
func (r *Rhythm) spread(weeks []week) {
	sum, n := 0.0, 0
	for _, w := range weeks {
		if w.span < 1 {
			continue
		}
		mean := w.span * math.Exp(r.level+r.slope*w.middle)
		sum += (w.count - mean) * (w.count - mean) / mean
		n++
	}
	if n > 2 {
		r.extra = max(1, sum/float64(n-2))
	}
}

// trendLimit is how far ahead the trend is carried; after it the level stays.
// Common practice, no source.
const trendLimit = 14 * 24 * time.Hour

// Demand returns what the rhythm says of any time after now. The trend is
// carried no further than two weeks past now.
func (r Rhythm) Demand(now time.Time) Demand {
	furthest := now.Add(trendLimit)
	return func(from, until time.Time) (mean, variance float64) {
		from, until = from.In(r.from.Location()), until.In(r.from.Location())
		at := from
		if at.After(furthest) {
			at = furthest
		}
		x := at.Sub(r.from).Hours() / (7 * 24)
		weekly := math.Exp(r.level + r.slope*x)
		mean = r.week(from, until) * weekly
		known := r.cov[0] + 2*x*r.cov[1] + x*x*r.cov[2]
		return mean, mean * mean * (known + (r.extra-1)/weekly) // the days of a week are high or low together
	}
}

// week returns the share of a week's discharges that come between two
// instants.
func (r Rhythm) week(from, until time.Time) float64 {
	share := 0.0
	for at := from; at.Before(until); {
		next := at.Truncate(time.Hour).Add(time.Hour)
		if next.After(until) {
			next = until
		}
		share += r.share[at.Weekday()] * r.hours[at.Weekday()][at.Hour()] * next.Sub(at).Hours()
		at = next
	}
	return share
}

// Hour returns the share of a weekday's discharges that come in an hour of
// the day, from 0 to 23.
func (r Rhythm) Hour(day time.Weekday, hour int) float64 { return r.hours[day][hour] }

// Weekday returns the share of a week's discharges that come on a weekday.
func (r Rhythm) Weekday(day time.Weekday) float64 { return r.share[day] }

// Trend returns the change in a week, as a factor, with its 95 % band.
func (r Rhythm) Trend() (factor, low, high float64) {
	width := 1.959964 * math.Sqrt(r.cov[2])
	return math.Exp(r.slope), math.Exp(r.slope - width), math.Exp(r.slope + width)
}
