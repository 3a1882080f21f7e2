package scene

import "math"

// box is a rectangle by its edges.
type box struct{ left, top, right, bottom float64 }

// crowd keeps words from being written over each other.
type crowd []box

func (c *crowd) take(b box) { *c = append(*c, b) }

func (c *crowd) free(b box) bool {
	for _, o := range *c {
		if b.left < o.right && o.left < b.right && b.top < o.bottom && o.top < b.bottom {
			return false
		}
	}
	return true
}

// takeFree takes b unless something stands there already.
func (c *crowd) takeFree(b box) bool {
	if !c.free(b) {
		return false
	}
	c.take(b)
	return true
}

// put writes the words, moved in from the scene's sides, unless others stand
// there.
func (c *crowd) put(s *Scene, word Words) {
	const gap = 4
	wide := Width(word.Text, word.Size, word.Bold)
	left := math.Max(0, math.Min(word.X-wide*float64(word.Align)/2, s.W-wide))
	if !c.takeFree(box{left - gap, word.Y - word.Size, left + wide + gap, word.Y + word.Size*0.25}) {
		return
	}
	word.X = left + wide*float64(word.Align)/2
	s.add(word)
}

// backed returns the words on a bar of ground, for where lines run behind them.
func backed(word Words) []Shape {
	wide := Width(word.Text, word.Size, word.Bold)
	left := word.X - wide*float64(word.Align)/2
	return []Shape{
		Bar{X: left, Y: word.Y - word.Size*0.8, W: wide, H: word.Size * 1.06, Ink: Ground},
		word,
	}
}
