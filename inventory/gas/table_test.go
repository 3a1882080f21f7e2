package gas

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func mustOwn(t *testing.T, s Size) Size {
	t.Helper()
	own, err := Own(s)
	require.NoError(t, err)
	return own
}

// A programme's own size stands beside those that come with the program, and
// one under a code of theirs takes its place.
func TestOwnSizes(t *testing.T) {
	quay := mustOwn(t, Size{Region: "qi", Letter: " q", Contents: 500, Service: Bar(150), WaterVolume: 3.2, EmptyMass: 4, Valve: post})
	e := mustOwn(t, Size{Region: "US", Letter: "E", Contents: 660, Service: PSI(1900)})
	own := Table{quay, e}
	require.NoError(t, own.Check())

	found, known := own.LookUp("qi-q")
	require.True(t, known)
	assert.Equal(t, SizeCode("QI-Q"), found.Code)
	assert.InDelta(t, 4.663, found.GrossMass, 0.001, "4 kg and 500 L of 1.3261 g (NIST density at 70 °F and 1 atm)")
	assert.Equal(t, "500 L set, full at 2,176 psi set, 3.2 L of water set, 4 kg empty set", found.Sources())

	found, _ = own.LookUp("US-E")
	assert.Equal(t, Litres(660), found.Contents, "the programme's own takes its place")
	found, _ = LookUp("US-E")
	assert.Equal(t, Litres(682), found.Contents)
	assert.Len(t, own.All(), len(Table(nil).All())+1)

	parsed, err := own.Parse("Q", "QI")
	require.NoError(t, err)
	assert.Equal(t, quay.Code, parsed.Code)
	assert.Equal(t, "Q", quay.Code.Letter())
	assert.Equal(t, "E", SizeCode("US-M24").Letter())

	text, err := json.Marshal(own)
	require.NoError(t, err)
	var back Table
	require.NoError(t, json.Unmarshal(text, &back))
	assert.InDelta(t, float64(quay.Usable(Bar(100), UsualReserve, Room)), float64(back[0].Usable(Bar(100), UsualReserve, Room)), 1e-9)
}

func TestOwnSizesThatCanNotBe(t *testing.T) {
	for says, s := range map[string]Size{
		"outside 30 to 310 bar": {Region: "US", Letter: "E2", Contents: 682, Service: PSI(6000)},
		"far above the usual":   {Region: "US", Letter: "D", Contents: 425, Service: PSI(4000)},
		"do not fit":            {Region: "QI", Letter: "Q", Contents: 500, Service: Bar(150), WaterVolume: 1},
		"needs a region":        {Letter: "Q", Contents: 500, Service: Bar(150)},
		"no kind of valve":      {Region: "QI", Letter: "Q", Contents: 500, Service: Bar(150), Valve: "tap"},
		"below zero":            {Region: "QI", Letter: "Q", Contents: 500, Service: Bar(150), WaterVolume: -1},
		"outside 10 to 20,000":  {Region: "QI", Letter: "Q", Contents: 5, Service: Bar(150)},
		"below the empty mass":  {Region: "QI", Letter: "Q", Contents: 500, Service: Bar(150), EmptyMass: -1},
	} {
		_, err := Own(s)
		assert.ErrorContains(t, err, says)
	}
	q := mustOwn(t, Size{Region: "QI", Letter: "Q", Contents: 500, Service: Bar(150)})
	assert.ErrorContains(t, Table{q, q}.Check(), "twice")
}
