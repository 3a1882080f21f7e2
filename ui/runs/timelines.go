package runs

import (
	"strconv"
	"strings"
	"time"

	"lungwort/delivery"
	"lungwort/delivery/route"
	"lungwort/labels/scene"
)

// Timelines is the board as a picture.
func (m *Model) Timelines() scene.RoundsData {
	t := m.table
	d := scene.RoundsData{Now: m.book.now, From: m.book.now, To: m.book.now.Add(4 * time.Hour)}
	for _, r := range t.times {
		lane := scene.Lane{Name: r.Name, Below: "nothing to do", Ends: r.Ends, Wrong: r.Overtime > 0 || r.Over != route.Load{}}
		if len(r.Stops) > 0 {
			lane.Below = strings.Trim(r.Driver+" · "+kilometres(r.Metres), " ·")
			lane.Leaves, lane.Back = r.Departs, r.Back
			for _, rest := range r.Rests {
				lane.Rests = append(lane.Rests, scene.Rest(rest))
			}
			d.To = latest(d.To, r.Back.Add(10*time.Minute))
			d.From = earliest(d.From, r.Departs)
		}
		for _, s := range r.Stops {
			lane.Blocks = append(lane.Blocks, m.block(r, s))
		}
		d.Lanes = append(d.Lanes, lane)
	}
	if oldest := m.book.now.Add(-2 * time.Hour); d.From.Before(oldest) {
		d.From = oldest
	}
	return d
}

func latest(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

func earliest(a, b time.Time) time.Time {
	if b.Before(a) {
		return b
	}
	return a
}

func (m *Model) block(r delivery.RoundTimes, s delivery.StopTimes) scene.Block {
	inHand := s.On == m.table.hand
	return scene.Block{
		Key: strconv.Itoa(s.On), Label: strconv.Itoa(s.Number), From: s.Arrive, To: s.Leave, Opens: s.Opens, Shuts: s.Shuts, ActBy: s.ActBy,
		Load: fullest(s.After, r.Room), Late: s.Late > 0 || s.Shut > 0 || s.Unfit, Locked: s.Locked, Fixed: s.Fixed,
		InHand: inHand && !m.table.carried, Carried: inHand && m.table.carried,
	}
}

// fullest returns the largest share of a vehicle's limits in use.
func fullest(load, room route.Load) (share float64) {
	for d := range load {
		if room[d] > 0 && room[d] < route.Unlimited {
			share = max(share, float64(load[d])/float64(room[d]))
		}
	}
	return share
}
