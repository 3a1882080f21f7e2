package tag

import (
	"fmt"
	"strings"
)

// take puts one element into the reading.
func (r *Reading) take(e element) (err error) {
	if err := e.check(); err != nil {
		return err
	}
	switch e.ai {
	case "01":
		r.GTIN = e.value
	case "10":
		r.Lot = e.value
	case "11":
		r.Made, err = gs1Day(e.value)
	case "17":
		r.Expires, err = gs1Day(e.value)
	case "21":
		r.Serial = e.value
	case "8003":
		r.GRAI = e.value
	case "8004":
		r.GIAI = e.value
	}
	return err
}

// check refuses a value that its identifier does not allow.
func (e element) check() error {
	limit, ok := longestValue[e.ai]
	if !ok {
		limit = 90
	}
	switch {
	case e.value == "":
		return fmt.Errorf("(%s) in the GS1 code is empty. Scan again.", e.ai)
	case len(e.value) > limit:
		return fmt.Errorf("(%s) in the GS1 code has %d signs, more than the %d GS1 allows: a separator was lost. Type lot and serial from the label.", e.ai, len(e.value), limit)
	case strings.ContainsFunc(e.value, notInvariant):
		return fmt.Errorf("(%s) in the GS1 code holds a sign GS1 does not allow: %q. Scan again.", e.ai, e.value)
	case e.ai == "01" && (len(e.value) != 14 || !checked10(e.value)):
		return fmt.Errorf("The product number %s fails its check digit. Scan again.", e.value)
	case e.ai == "8003" && (len(e.value) < 14 || e.value[0] != '0' || !checked10(e.value[1:14])):
		return fmt.Errorf("The asset number (8003) %s fails its check digit. Scan again.", e.value)
	}
	return nil
}

// notInvariant reports whether r is outside the signs of element strings: GS1
// AI encodable character set 82, the letters, digits and signs that read the
// same in every national variant of ISO/IEC 646, here with # from set 39.
func notInvariant(r rune) bool {
	return r <= ' ' || r > 'z' || strings.ContainsRune("$@[\\]^`", r)
}

// gtin14 fills a GTIN of 8, 12 or 13 digits up to fourteen with leading zeros;
// any other number stays as it is.
func gtin14(gtin string) string {
	if n := len(gtin); n == 8 || n == 12 || n == 13 {
		return strings.Repeat("0", 14-n) + gtin
	}
	return gtin
}

// inWords returns what a GS1 code says, or "" when it names nothing of use.
func (r *Reading) inWords() string {
	const day = "Mon 2 Jan 2006"
	var parts []string
	say := func(name, value string) {
		if value != "" {
			parts = append(parts, name+" "+value)
		}
	}
	say("serial", r.Serial)
	say("asset", r.GRAI)
	say("asset", r.GIAI)
	say("lot", r.Lot)
	say("product", r.GTIN)
	if len(parts) == 0 {
		return ""
	}
	if !r.Made.IsZero() {
		say("made", r.Made.Format(day))
	}
	if !r.Expires.IsZero() {
		say("expires", r.Expires.Format(day))
	}
	return strings.Join(parts, ", ")
}
