package scene_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"lungwort/labels/scene"
)

func TestLoads(t *testing.T) {
	d := scene.LoadsData{
		Steps: []string{"leaves", "1", "2", "3"}, InHand: 2,
		Lines: []scene.LoadLine{
			{Name: "pieces", Values: []int64{9, 7, 8, 4}, Limit: 24},
			{Name: "kg of cylinders", Values: []int64{150, 120, 170, 90}, Limit: 160},
			{Name: "litres", Values: []int64{400, 280, 280, 120}},
			{Name: "used things", Values: []int64{0, 2, 3, 4}, Limit: 24},
		},
	}
	s := scene.Loads(d, 840, 260)
	look(t, "loads", s)
	golden(t, "loads", s)
	wantInside(t, "loads", s)
	alarms := 0
	for _, shape := range s.Shapes {
		if bar, is := shape.(scene.Bar); is && bar.Ink == scene.Alarm {
			alarms++
		}
	}
	assert.Equal(t, 1, alarms, "one step is over its limit")
	assert.Empty(t, scene.Loads(d, 840, 60).Shapes, "no room")
	assert.Empty(t, scene.Loads(scene.LoadsData{}, 840, 260).Shapes, "no round")
}
