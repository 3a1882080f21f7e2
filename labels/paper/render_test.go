package paper_test

import (
	"bytes"
	"fmt"
	"image"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lungwort/labels/paper"
)

// quillet is the zone of the invented islands.
var quillet = time.FixedZone("Quillet", -4*3600)

// at is a time of Tuesday 24 November 2026.
func at(hour, minute int) time.Time { return time.Date(2026, 11, 24, hour, minute, 0, 0, quillet) }

// printer is any of our papers.
type printer interface {
	Print(io.Writer) (paper.Result, error)
}

// mustPrint prints p twice, requires the same bytes, and returns them.
func mustPrint(t testing.TB, p printer) ([]byte, paper.Result) {
	t.Helper()
	var first, second bytes.Buffer
	result, err := p.Print(&first)
	require.NoError(t, err)
	_, err = p.Print(&second)
	require.NoError(t, err)
	require.True(t, bytes.Equal(first.Bytes(), second.Bytes()), "the same paper printed twice differs")
	keep(t, first.Bytes())
	return first.Bytes(), result
}

// keep writes a PDF to the folder named by PAPER_KEEP, for looking at it.
func keep(t testing.TB, pdf []byte) {
	if dir := os.Getenv("PAPER_KEEP"); dir != "" {
		require.NoError(t, os.WriteFile(filepath.Join(dir, filepath.Base(t.Name())+".pdf"), pdf, 0o600))
	}
}

// run runs a Debian tool that the tests need and returns what it wrote.
func run(t testing.TB, in []byte, name string, args ...string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	require.NoError(t, err, "the tests of paper need %s: install poppler-utils and zbar-tools", name)
	cmd := exec.Command(path, args...)
	cmd.Stdin = bytes.NewReader(in)
	var said, failed bytes.Buffer
	cmd.Stdout, cmd.Stderr = &said, &failed
	require.NoError(t, cmd.Run(), "%s %s: %s", name, strings.Join(args, " "), failed.String())
	return said.String()
}

// text returns the words of a PDF in the layout they have on the page.
func text(t testing.TB, pdf []byte) string {
	t.Helper()
	return run(t, pdf, "pdftotext", "-layout", "-", "-")
}

// pages renders a PDF and returns the pictures' file names in order.
func pages(t testing.TB, pdf []byte, dpi int) []string {
	t.Helper()
	stem := filepath.Join(t.TempDir(), "page")
	run(t, pdf, "pdftoppm", "-r", fmt.Sprint(dpi), "-gray", "-", stem)
	files, err := filepath.Glob(stem + "*.pgm")
	require.NoError(t, err)
	sort.Strings(files)
	return files
}

// picture reads a rendered page, a raw PGM file of 8 bits.
func picture(t testing.TB, file string) *image.Gray {
	t.Helper()
	raw, err := os.ReadFile(file)
	require.NoError(t, err)
	var wide, tall, depth int
	_, err = fmt.Fscanf(bytes.NewReader(raw), "P5\n%d %d\n%d", &wide, &tall, &depth)
	require.NoError(t, err, file)
	require.Equal(t, 255, depth)
	return &image.Gray{Pix: raw[len(raw)-wide*tall:], Stride: wide, Rect: image.Rect(0, 0, wide, tall)}
}

// scanned returns the QR codes zbar finds on rendered pages.
func scanned(t testing.TB, files ...string) []string {
	t.Helper()
	options := []string{"--nodbus", "-q", "--raw", "-Sdisable", "-Sqrcode.enable"}
	return strings.Fields(run(t, nil, "zbarimg", append(options, files...)...))
}
