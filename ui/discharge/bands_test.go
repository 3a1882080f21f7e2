package discharge

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/inventory/gas"
)

func TestReadBands(t *testing.T) {
	given, err := readBands(" 90 %, 5, 6 L/min, Holm, Dr ")
	require.NoError(t, err)
	assert.Equal(t, &delivery.GiveBands{Target: 90, Borderline: 5, Emergency: 6, By: "Holm, Dr"}, given)
	given, err = readBands("Waived, Dr Holm")
	require.NoError(t, err)
	assert.Equal(t, &delivery.GiveBands{Waived: true, By: "Dr Holm"}, given)
	given, err = readBands("  ")
	require.NoError(t, err)
	assert.Nil(t, given)
	for text, why := range map[string]string{
		"waived": "who waived them", "90": "as 90, 5, 6, Dr Holm", "90, 5, 6": "as 90, 5, 6", "high, 5, 6, Dr Holm": "not a saturation",
		"90, setting 2, 6, Dr Holm": "not a flow", "90, 5, O, Dr Holm": "letter O", "90, 7, 6, Dr Holm": "above the emergency band", "20, 5, 6, Dr Holm": "can't be",
	} {
		_, err := readBands(text)
		assert.ErrorContains(t, err, why, text)
	}
}

func FuzzReadBands(f *testing.F) {
	for _, text := range []string{"", "90, 5, 6, Dr Holm", "waived, Dr Holm", "90 %,5 L/min,1/8,x", ",,,", "NaN, 1, 2, x"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		given, err := readBands(text)
		if err != nil || given == nil {
			return
		}
		assert.NotEmpty(t, given.By, "%q", text)
		if !given.Waived {
			assert.NoError(t, delivery.Bands{Target: given.Target, Borderline: given.Borderline, Emergency: given.Emergency}.Check(), "%q", text)
			assert.Less(t, given.Borderline, gas.Flow(1000), "%q", text)
		}
	})
}

func TestReadMinutes(t *testing.T) {
	for text, want := range map[string]float64{"25": 25, "25 min": 25, "0": 0} {
		takes, err := readMinutes(text)
		require.NoError(t, err, text)
		assert.InDelta(t, want, takes.Minutes(), 0, text)
	}
	takes, err := readMinutes("")
	require.NoError(t, err)
	assert.Nil(t, takes, "as the book has it")
	for _, text := range []string{"-1", "soon", "1.5", "9999"} {
		_, err := readMinutes(text)
		assert.ErrorContains(t, err, "write minutes", text)
	}
}
