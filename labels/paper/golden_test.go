package paper_test

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/labels/paper"
)

var update = flag.Bool("update", false, "write the golden files anew")

// The words of every paper in the order they are drawn; a change of wording or
// of order shows as a difference to read, not as a picture to compare.
func TestPapersSayWhatTheirGoldenFilesSay(t *testing.T) {
	for name, p := range map[string]printer{
		"run":      quilletRun(),
		"night":    quilletNight(12),
		"handover": quilletHandOver(),
		"return":   quilletReturn(),
		"labels":   sheetOf(paper.Stocks[0], labels(3)),
		"rulers":   paper.RulerPage{Stock: paper.Stocks[4], Printed: at(16, 20)},
	} {
		t.Run(name, func(t *testing.T) {
			pdf, _ := mustPrint(t, p)
			var lines []string
			for line := range strings.Lines(run(t, pdf, "pdftotext", "-raw", "-", "-")) {
				lines = append(lines, strings.Join(strings.Fields(line), " "))
			}
			got := strings.Join(lines, "\n") + "\n"
			file := filepath.Join("testdata", name+".golden")
			if *update {
				require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
			}
			want, err := os.ReadFile(file)
			require.NoError(t, err)
			assert.Equal(t, string(want), got, "if the change is meant: go test ./labels/paper -run Golden -update")
		})
	}
}
