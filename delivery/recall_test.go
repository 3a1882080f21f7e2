package delivery_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"lungwort/delivery"
	"lungwort/inventory"
)

// The ranges and lists are from public recall notices: a concentrator recall by
// serial range (2024), and a battery recall by a list of 1,724 ids.
func TestRecallMatch(t *testing.T) {
	months := delivery.RecallNotice{From: "JA2311000001", To: "JA2312000740"}
	month := delivery.RecallNotice{From: "JA2311000001", To: "JA2311000740"}
	ids := delivery.RecallNotice{Serials: []string{"001418", "001419"}}
	numbers := delivery.RecallNotice{From: "001418", To: "003000"}
	still := delivery.RecallNotice{Model: "Still 5"}
	both := delivery.RecallNotice{Model: "Still 5", From: "CN00400", To: "CN00499"}
	for _, c := range []struct {
		notice        delivery.RecallNotice
		serial, model string
		want          delivery.Match
		why           string
	}{
		{months, "ja 2312-000739 ", "", delivery.Yes, "inside the range"},
		{months, "JA2311000001", "", delivery.Yes, "inside the range"},
		{months, "JA2312000740", "", delivery.Yes, "inside the range"},
		{months, "JA23I2000740", "", delivery.Perhaps, "if a letter is a digit"},
		{months, "JA2312000741", "", delivery.No, ""},
		{months, "JA2311999999", "", delivery.Yes, "check the plate"},
		{months, "JA2310999999", "", delivery.No, ""},
		{months, "JA231200073", "", delivery.No, ""},
		{months, "", "", delivery.No, ""},
		{month, "JA2311000139", "", delivery.Yes, "inside the range"},
		{month, "JA2311000741", "", delivery.No, ""},
		{ids, "001418", "", delivery.Yes, "on the list"},
		{ids, "00-1418", "", delivery.Yes, "on the list"},
		{ids, "1418", "", delivery.Perhaps, "near 001418"},
		{ids, "1420", "", delivery.No, ""},
		{numbers, "002000", "", delivery.Yes, "inside the range"},
		{numbers, "2000", "", delivery.Perhaps, "zeros were lost"},
		{numbers, "1417", "", delivery.No, ""},
		{numbers, "A2000", "", delivery.No, ""},
		{still, "CN00417", "still-5", delivery.Yes, "model still-5"},
		{still, "CN00417", "Still 10", delivery.No, ""},
		{still, "CN00417", "", delivery.Perhaps, "no model is in the book"},
		{both, "CN00417", "Still 5", delivery.Yes, "inside the range"},
		{both, "CN00517", "Still 5", delivery.No, ""},
		{both, "CN00417", "Still 10", delivery.No, ""},
		{both, "CN00417", "", delivery.Perhaps, "no model is in the book"},
		{delivery.RecallNotice{From: "E-20100"}, "E-20117", "", delivery.Yes, "inside the range"},
		{delivery.RecallNotice{To: "E-20100"}, "E-20117", "", delivery.No, ""},
		{delivery.RecallNotice{}, "E-20117", "", delivery.No, ""},
	} {
		got, why := c.notice.Match(inventory.Spec{Kind: inventory.Concentrator, Serial: c.serial, Model: c.model})
		assert.Equal(t, c.want, got, "%+v: serial %q, model %q: %s", c.notice, c.serial, c.model, why)
		assert.Contains(t, why, c.why, "%+v: serial %q", c.notice, c.serial)
	}
	cylinder, _ := still.Match(inventory.Spec{Kind: inventory.Cylinder, Serial: "E-20117"})
	assert.Equal(t, delivery.No, cylinder, "a cylinder is known by its size")
}
