package sheet

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/wlynxg/chardet"
	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/htmlindex"
	"golang.org/x/text/encoding/simplifiedchinese"
	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/encoding/unicode/utf32"
)

// sampleBytes is how much of a file the guess of its encoding looks at.
const sampleBytes = 64 << 10

// surenessNeeded is the confidence below which the guess is not better than
// the encoding most spreadsheets of Western Europe and the Americas use.
const surenessNeeded = 0.5

// decode returns data as UTF-8, and a note when the encoding had to be guessed.
func decode(name string, data []byte) (text, note string, err error) {
	enc, label := declared(data)
	if enc == nil {
		if bytes.IndexByte(data, 0) >= 0 {
			return "", "", notASheet(name, "neither a spreadsheet nor text")
		}
		if utf8.Valid(data) {
			return string(data), "", nil
		}
		enc, label = guessed(data)
		note = fmt.Sprintf("The file does not say how its letters are stored; it was read as %s. Look at names with accents.", label)
	}
	decoded, err := enc.NewDecoder().Bytes(data)
	if err != nil {
		return "", "", damaged(name, err)
	}
	return strings.TrimPrefix(string(decoded), "\uFEFF"), note, nil
}

// declared returns the encoding that the file's first bytes give away, or nil.
func declared(data []byte) (encoding.Encoding, string) {
	switch {
	case bytes.HasPrefix(data, []byte("\xEF\xBB\xBF")):
		return unicode.UTF8, "UTF-8"
	case bytes.HasPrefix(data, []byte("\xFF\xFE\x00\x00")):
		return utf32.UTF32(utf32.LittleEndian, utf32.UseBOM), "UTF-32"
	case bytes.HasPrefix(data, []byte("\x00\x00\xFE\xFF")):
		return utf32.UTF32(utf32.BigEndian, utf32.UseBOM), "UTF-32"
	case bytes.HasPrefix(data, []byte("\xFF\xFE")), zeroShare(data, 1) > 0.4 && zeroShare(data, 0) < 0.05:
		return unicode.UTF16(unicode.LittleEndian, unicode.UseBOM), "UTF-16"
	case bytes.HasPrefix(data, []byte("\xFE\xFF")), zeroShare(data, 0) > 0.4 && zeroShare(data, 1) < 0.05:
		return unicode.UTF16(unicode.BigEndian, unicode.UseBOM), "UTF-16"
	}
	return nil, ""
}

// zeroShare is the share of zero bytes among every second byte. Text in UTF-16
// without a mark has zeros in one half and next to none in the other.
func zeroShare(data []byte, from int) float64 {
	data = data[:min(len(data), sampleBytes)]
	zeros, all := 0, 0
	for i := from; i < len(data); i += 2 {
		all++
		if data[i] == 0 {
			zeros++
		}
	}
	if all == 0 {
		return 0
	}
	return float64(zeros) / float64(all)
}

// guessed returns the likeliest encoding of text that declares none.
func guessed(data []byte) (encoding.Encoding, string) {
	western := func() (encoding.Encoding, string) { return charmap.Windows1252, "Windows-1252 (Western European)" }
	first := bytes.IndexFunc(data, func(r rune) bool { return r >= utf8.RuneSelf })
	from := max(0, first-sampleBytes/4)
	guess := chardet.Detect(data[from:min(len(data), from+sampleBytes)])
	switch {
	case guess.Confidence < surenessNeeded, guess.Encoding == "ISO-8859-1":
		return western()
	case guess.Encoding == "GB2312":
		return simplifiedchinese.GB18030, "GB18030 (Chinese)"
	case guess.Encoding == "MacRoman":
		return charmap.Macintosh, "Mac Roman"
	case guess.Encoding == "MacCyrillic":
		return charmap.MacintoshCyrillic, "Mac Cyrillic"
	}
	enc, err := htmlindex.Get(guess.Encoding)
	if err != nil {
		return western()
	}
	return enc, guess.Encoding
}
