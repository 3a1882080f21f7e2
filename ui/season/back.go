package season

import (
	"slices"
	"time"

	"lungwort/delivery"
	"lungwort/inventory"
	"lungwort/ui/season/fate"
	"lungwort/ui/season/truth"
)

// labelSeen is how long a wrong serial stays in the book: then the thing is put
// away, and the label on it is not that of what was taken back.
const labelSeen = 15 * time.Minute

// takeBack takes in at the warehouse what a vehicle brought.
func (o *office) takeBack(things []*truth.Item) error {
	var acts []delivery.Act
	for _, i := range things {
		act := delivery.Return{Item: i.ID, Depot: fate.Depot}
		if i.Kind == inventory.Cylinder {
			act.Gauge = o.read(i, fate.MisreadsUs, "returned", o.clock.Unix())
		}
		i.Place = inventory.At(inventory.AtDepot, fate.Depot)
		if typed := o.typed(i); typed != i {
			wrong, err := o.takeBackWrong(typed, act)
			if err != nil {
				return err
			}
			if wrong {
				continue
			}
		}
		acts = append(acts, act)
	}
	return o.doAll("warehouse", acts)
}

// typed is the thing whose serial is keyed for one that came back: now and then
// two digits change places, and there is a thing of that kind in some home with
// that serial.
func (o *office) typed(i *truth.Item) *truth.Item {
	if !o.season.Happens(fate.WrongSerial, "typed", i.Serial, o.clock.Unix()) {
		return i
	}
	for at := 1; at+1 < len(i.Serial); at++ {
		turned := []byte(i.Serial)
		turned[at], turned[at+1] = turned[at+1], turned[at]
		for _, other := range o.items {
			if other.Kind == i.Kind && other.Serial == string(turned) && other.Place.Kind() == inventory.AtAddress {
				return other
			}
		}
	}
	return i
}

// takeBackWrong takes in another thing than the one that came. Where the program
// says that nobody has that one, the label is read again at once; else it is found
// when the thing is put away, and what was written is taken back.
func (o *office) takeBackWrong(typed *truth.Item, act delivery.Return) (done bool, err error) {
	wrong := act
	wrong.Item = typed.ID
	out, err := o.do("warehouse", wrong)
	if refused(err) {
		o.tally.Refused++
		return false, nil
	}
	if err != nil {
		return false, err
	}
	o.at(o.clock.Add(labelSeen), func() error {
		for _, f := range slices.Backward(out.Facts) {
			if _, err := o.do("warehouse", delivery.Retract{Fact: f.ID, Why: "the label says another serial"}); err != nil {
				return err
			}
		}
		_, err := o.do("warehouse", act)
		return err
	})
	return true, nil
}
