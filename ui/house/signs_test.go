package house_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/font/sfnt"

	"lungwort/labels/typeface"
)

// TestEverySignHasALetterform holds every sign the program can show, and every
// sign of the demo, to the fonts it carries: nothing depends on the fonts of
// the machine.
func TestEverySignHasALetterform(t *testing.T) {
	regular, err := sfnt.Parse(typeface.Regular)
	require.NoError(t, err)
	bold, err := sfnt.Parse(typeface.Bold)
	require.NoError(t, err)
	var buf sfnt.Buffer
	check := func(where, text string) {
		for _, r := range text {
			if r < ' ' || unicode.In(r, unicode.Cf, unicode.Mn) || r == '\u00a0' || r > '\uffff' {
				continue // what is cleaned away or composed before it is drawn
			}
			for _, font := range []*sfnt.Font{regular, bold} {
				glyph, err := font.GlyphIndex(&buf, r)
				require.NoError(t, err)
				assert.NotZero(t, glyph, "%s has %q (%U), which a font of ours lacks", where, r, r)
			}
		}
	}
	sources(t, func(path string) {
		if strings.HasSuffix(path, "_test.go") || strings.HasPrefix(path, "inventory/sheet/") {
			return // the readers name signs that they look for in files and never show
		}
		file, err := parser.ParseFile(token.NewFileSet(), "../../"+path, nil, 0)
		require.NoError(t, err)
		ast.Inspect(file, func(n ast.Node) bool {
			if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
				if text, err := strconv.Unquote(lit.Value); err == nil {
					check(path, text)
				}
			}
			return true
		})
	})
	lists, err := filepath.Glob("../../testdata/quillet/*.*")
	require.NoError(t, err)
	for _, list := range lists {
		text, err := os.ReadFile(list)
		require.NoError(t, err)
		check(list, string(text))
	}
}
