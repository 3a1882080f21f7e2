package printing

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/refusal"
	"lungwort/labels/paper"
)

// machine is a machine with two printers, one of them switched off.
func machine(t *testing.T) (*Printers, *[]string) {
	t.Helper()
	var ran []string
	p := New(filepath.Join(t.TempDir(), "notes", "printers.json"))
	p.run = func(_ context.Context, name string, args ...string) (string, error) {
		line := name + " " + strings.Join(args, " ")
		ran = append(ran, line)
		if strings.Contains(line, "-d stairs") {
			return "", errors.New("exit status 1")
		}
		return "office\nstairs\n", nil
	}
	return p, &ran
}

func TestPapersGoToTheChosenPrinterInTheirOwnSize(t *testing.T) {
	p, ran := machine(t)
	assert.Equal(t, []string{"office", "stairs"}, p.Names(context.Background()))
	require.NoError(t, p.Send(context.Background(), "office", "/papers/labels.pdf", paper.A4))
	require.NoError(t, p.Send(context.Background(), "office", "/papers/labels.pdf", paper.Stocks[4].Page))
	assert.Equal(t, []string{
		"lpstat -e",
		"lp -d office -t Lungwort -o media=A4 -o print-scaling=none -- /papers/labels.pdf",
		"lp -d office -t Lungwort -o media=Custom.62x29mm -o print-scaling=none -- /papers/labels.pdf",
	}, *ran)
	err := p.Send(context.Background(), "stairs", "/papers/labels.pdf", paper.A4)
	assert.Equal(t, refusal.Unready, refusal.KindOf(err))
	assert.ErrorContains(t, err, "It is in /papers")
}

// TestOnePrinterIsForPapers: another choice takes the place of the first, what is
// in the printers stays, and the viewer is no printer.
func TestOnePrinterIsForPapers(t *testing.T) {
	p, ran := machine(t)
	assert.Empty(t, p.Office())
	roll := Loaded{Stock: "Roll, 62 × 29 mm", DPI: paper.DPI203}
	require.NoError(t, p.Remember("stairs", roll))
	require.NoError(t, p.SetOffice("stairs"))
	require.NoError(t, p.SetOffice("office"))
	assert.Equal(t, "office", New(p.file).Office())
	_, known := p.Loaded("office")
	assert.False(t, known, "no label paper was put into it")
	in, known := p.Loaded("stairs")
	assert.True(t, known)
	assert.Equal(t, roll, in)
	require.NoError(t, p.Send(context.Background(), "office", "/papers/letter.pdf", paper.Format{}))
	assert.Equal(t, []string{"lp -d office -t Lungwort -o print-scaling=none -- /papers/letter.pdf"}, *ran)
	require.NoError(t, p.SetOffice(""))
	assert.Empty(t, p.Office())
}

func TestWithoutPrintersThereAreNone(t *testing.T) {
	var none *Printers
	assert.Empty(t, none.Names(context.Background()))
	_, known := none.Loaded("office")
	assert.False(t, known)
	assert.Empty(t, none.Office())

	t.Setenv("PATH", t.TempDir()) // a machine without the commands
	assert.Empty(t, New("nowhere").Names(context.Background()))
	assert.Error(t, New("nowhere").Send(context.Background(), "office", "x.pdf", paper.A4))
}

func TestWhatIsInAPrinterIsRemembered(t *testing.T) {
	p, _ := machine(t)
	_, known := p.Loaded("office")
	assert.False(t, known)
	roll := Loaded{Stock: "Roll, 62 × 29 mm", DPI: paper.DPI203}
	require.NoError(t, p.Remember("office", roll))
	require.NoError(t, p.Remember("stairs", Loaded{Stock: "Freezer labels", DPI: 300}))
	again := New(p.file)
	in, known := again.Loaded("office")
	assert.True(t, known)
	assert.Equal(t, roll, in)

	require.NoError(t, os.WriteFile(p.file, []byte("{"), 0o600))
	_, known = p.Loaded("office")
	assert.False(t, known)
	require.NoError(t, p.Remember("office", roll), "a damaged note is written anew")
	_, known = p.Loaded("office")
	assert.True(t, known)
}
