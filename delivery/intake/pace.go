package intake

import "context"

// pace tells how far a reading is, step by step, and notices that it was
// stopped.
type pace struct {
	ctx         context.Context
	tell        func(share float64)
	from, until float64 // the shares of the whole between which the step lies
	parts, done int     // of the step
}

func newPace(ctx context.Context, tell func(share float64)) pace {
	if tell == nil {
		tell = func(float64) {}
	}
	return pace{ctx: ctx, tell: tell}
}

// begin begins a step that ends at a share of the whole.
func (p *pace) begin(until float64) {
	p.from, p.until = p.until, until
	p.expect(0)
	p.tell(p.from)
}

// expect says how many parts the step has.
func (p *pace) expect(parts int) { p.parts, p.done = parts, 0 }

// moved counts one part as done. It returns why the reading was stopped.
func (p *pace) moved() error {
	const every = 256 // some milliseconds
	if p.done++; p.done%every != 0 {
		return nil
	}
	p.tell(p.from + (p.until-p.from)*min(1, float64(p.done)/float64(p.parts)))
	return p.ctx.Err()
}
