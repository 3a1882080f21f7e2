package uitest

import (
	"context"

	"lungwort/ui/runner"
)

// Held is a runner whose work waits until it is let go, as on a slow machine: work
// of one kind replaces the earlier work of that kind, as ever.
type Held struct {
	runner.Runner
	kinds []string
	works map[string]func()
}

// Hold makes the desk's screens wait for their work from now on.
func (d *Desk) Hold() *Held {
	h := &Held{Runner: d.Work.Run, works: map[string]func(){}}
	d.Work.Run = h
	return h
}

// Go keeps the work.
func (h *Held) Go(kind string, work func(context.Context) error, done func(error)) {
	if _, waits := h.works[kind]; !waits {
		h.kinds = append(h.kinds, kind)
	}
	h.works[kind] = func() { h.Runner.Go(kind, work, done) }
}

// LetGo does what waits, in the order in which it came.
func (h *Held) LetGo() {
	for len(h.kinds) > 0 {
		kind := h.kinds[0]
		work := h.works[kind]
		h.kinds = h.kinds[1:]
		delete(h.works, kind)
		work()
	}
}
