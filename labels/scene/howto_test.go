package scene_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"lungwort/labels/scene"
)

func TestHowTo(t *testing.T) {
	for _, h := range scene.HowTos {
		s := h.Draw("20 min")
		look(t, "howto-"+string(h), s)
		golden(t, "howto-"+string(h), s)
		wantInside(t, string(h), s)
		assert.Greater(t, len(s.Shapes), 4, "%s is drawn", h)
	}
	sign := scene.NoSmokingSign(300)
	look(t, "howto-sign", sign)
	wantInside(t, "sign", sign)
}
