package season

import (
	"container/heap"
	"time"
)

// event is something that happens at a time.
type event struct {
	at  time.Time
	seq int // events of one time happen in the order in which they were told
	do  func() error
}

// queue is what is still to happen, the next first.
type queue struct {
	events []event
	told   int
}

func (q *queue) Len() int      { return len(q.events) }
func (q *queue) Swap(i, j int) { q.events[i], q.events[j] = q.events[j], q.events[i] }
func (q *queue) Push(x any)    { q.events = append(q.events, x.(event)) }

func (q *queue) Less(i, j int) bool {
	if c := q.events[i].at.Compare(q.events[j].at); c != 0 {
		return c < 0
	}
	return q.events[i].seq < q.events[j].seq
}

func (q *queue) Pop() any {
	last := q.events[len(q.events)-1]
	q.events = q.events[:len(q.events)-1]
	return last
}

// tell adds an event.
func (q *queue) tell(at time.Time, do func() error) {
	q.told++
	heap.Push(q, event{at, q.told, do})
}

// next takes the next event; false when nothing is to happen any more.
func (q *queue) next() (event, bool) {
	if len(q.events) == 0 {
		return event{}, false
	}
	return heap.Pop(q).(event), true
}
