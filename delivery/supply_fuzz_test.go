package delivery_test

import (
	"testing"

	"lungwort/delivery"
)

// FuzzReadSupplies: counted supplies are read, or what is not understood is told.
func FuzzReadSupplies(f *testing.F) {
	for _, text := range []string{"2 cannula lot C77, 1 extension tubing", "cannula", "0 key", "-1 key", "99999999999 key", ",,", "2 lot 3"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		of, err := delivery.ReadSupplies(text)
		for _, h := range of {
			if err == nil && (h.Count < 1 || h.Supply == "") {
				t.Errorf("%q is read as %+v", text, h)
			}
		}
	})
}
