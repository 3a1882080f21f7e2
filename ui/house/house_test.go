package house_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"go/parser"
	"go/token"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// pkg is what go list tells of a package of ours.
type pkg struct {
	ImportPath string
	Imports    []string
}

func packages(t *testing.T) []pkg {
	t.Helper()
	list := exec.Command("go", "list", "-tags", "ci,migrated_fynedo", "-json=ImportPath,Imports", "./...", "./testdata/quillet")
	list.Dir = "../.."
	out, err := list.Output()
	require.NoError(t, err)
	var all []pkg
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		var p pkg
		if err := dec.Decode(&p); errors.Is(err, io.EOF) {
			return all
		} else {
			require.NoError(t, err)
		}
		all = append(all, p)
	}
}

// A rule says which packages of ours (by prefix) may import which, and why.
type rule struct {
	who    string // prefix of the importing package
	never  string // prefix of what it must not import
	except []string
	why    string
}

var rules = []rule{
	{"lungwort/inventory", "lungwort/delivery", nil, "things know nothing of people"},
	{"lungwort/inventory", "lungwort/labels", nil, "things are not printed by themselves"},
	{"lungwort/inventory", "lungwort/ui", nil, "nothing below knows the window"},
	{"lungwort/delivery", "lungwort/ui", nil, "nothing below knows the window"},
	{"lungwort/labels", "lungwort/ui", nil, "nothing below knows the window"},
	{"lungwort/labels", "lungwort/delivery", nil, "a page takes plain data"},
	{"lungwort/delivery", "lungwort/labels", []string{"lungwort/delivery/paperwork"}, "only paperwork fills pages"},
	{"lungwort/inventory/gas", "lungwort/", nil, "gas is pure"},
	{"lungwort/inventory/refusal", "lungwort/", nil, "a refusal is plain"},
	{"lungwort/inventory/wall", "lungwort/", nil, "the clock on the wall is pure"},
	{"lungwort/inventory/requal", "lungwort/", nil, "requalification is pure"},
	{"lungwort/inventory/book", "lungwort/", []string{"lungwort/inventory/refusal", "lungwort/inventory/book"}, "the book knows no domain"},
	{"lungwort/delivery/route", "lungwort/", []string{"lungwort/delivery/route"}, "routes are pure"},
	{"lungwort/delivery/outline", "lungwort/", []string{"lungwort/inventory/refusal"}, "outlines are pure"},
	{"lungwort/delivery/passphrase", "lungwort/", nil, "passphrases are pure"},
	{"lungwort/delivery/gazetteer", "lungwort/", nil, "looking places up is pure"},
	{"lungwort/delivery/depletion", "lungwort/", []string{"lungwort/inventory/gas"}, "the forecast is pure"},
	{"lungwort/inventory/outlook", "lungwort/", nil, "the outlook is pure"},
	{"lungwort/labels/tag", "lungwort/", nil, "tags are pure"},
	{"lungwort/labels/scene", "lungwort/", nil, "pictures are pure"},
	{"lungwort/labels/tongue", "lungwort/", []string{"lungwort/inventory/refusal"}, "languages are pure"},
}

func TestArrows(t *testing.T) {
	for _, p := range packages(t) {
		for _, r := range rules {
			if !within(p.ImportPath, r.who) || slices.ContainsFunc(r.except, func(e string) bool { return p.ImportPath == e }) {
				continue
			}
			for _, imported := range p.Imports {
				allowed := slices.ContainsFunc(r.except, func(e string) bool { return within(imported, e) })
				assert.False(t, strings.HasPrefix(imported, r.never) && !allowed && !within(imported, r.who),
					"%s imports %s, but %s", p.ImportPath, imported, r.why)
			}
		}
	}
}

func within(path, prefix string) bool { return path == prefix || strings.HasPrefix(path, prefix+"/") }

// keepers lists the packages that alone may use a library.
var keepers = map[string][]string{
	"fyne.io/":                        {"lungwort/ui"},
	"database/sql":                    {"lungwort/inventory/book", "lungwort/inventory/store", "lungwort/delivery/store"},
	"modernc.org/sqlite":              {"lungwort/inventory/book"},
	"github.com/jackc/pgx":            {"lungwort/inventory/book"},
	"github.com/xuri/excelize":        {"lungwort/inventory/sheet"},
	"codeberg.org/go-pdf/fpdf":        {"lungwort/labels/paper"},
	"github.com/skip2/go-qrcode":      {"lungwort/labels/paper"},
	"github.com/makiuchi-d/gozxing":   {"lungwort/labels/picture"},
	"github.com/stretchr/testify":     {"lungwort/inventory/book/booktest", "lungwort/delivery/store/storetest", "lungwort/ui/uitest"},
	"pgregory.net/rapid":              {},
	"github.com/rogpeppe/go-internal": {},
	"github.com/wlynxg/chardet":       {"lungwort/inventory/sheet"},
	"github.com/gofrs/flock":          {"lungwort/inventory/book"},
	"filippo.io/age":                  {"lungwort/inventory/book"},
	"golang.org/x/crypto":             {"lungwort/delivery/passphrase"},
	"golang.org/x/term":               {"lungwort/ui/console"},
}

func TestLibrariesHaveOneKeeper(t *testing.T) {
	for _, p := range packages(t) {
		for _, imported := range p.Imports {
			for library, keep := range keepers {
				if !strings.HasPrefix(imported, library) {
					continue
				}
				kept := p.ImportPath == "lungwort" || slices.ContainsFunc(keep, func(k string) bool { return within(p.ImportPath, k) })
				assert.True(t, kept, "%s imports %s, which belongs to %v", p.ImportPath, imported, keep)
			}
		}
	}
}

// TestParentsUseTheStandardLibrary keeps inventory and delivery free of
// anything but the standard library and our own pure packages.
func TestParentsUseTheStandardLibrary(t *testing.T) {
	for _, p := range packages(t) {
		if p.ImportPath != "lungwort/inventory" && p.ImportPath != "lungwort/delivery" {
			continue
		}
		for _, imported := range p.Imports {
			first, _, _ := strings.Cut(imported, "/")
			assert.False(t, strings.Contains(first, "."), "%s imports %s", p.ImportPath, imported)
			assert.False(t, strings.HasSuffix(imported, "/store") || strings.HasSuffix(imported, "/book"), "%s imports %s", p.ImportPath, imported)
		}
	}
}

// sources walks every Go file of the project.
func sources(t *testing.T, look func(path string)) {
	t.Helper()
	require.NoError(t, filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		if err == nil && strings.HasSuffix(path, ".go") {
			look(strings.TrimPrefix(filepath.ToSlash(path), "../../"))
		}
		return err
	}))
}

func TestModelsKnowNoWindow(t *testing.T) {
	sources(t, func(path string) {
		if filepath.Base(path) != "model.go" {
			return
		}
		file, err := parser.ParseFile(token.NewFileSet(), "../../"+path, nil, parser.ImportsOnly)
		require.NoError(t, err)
		for _, spec := range file.Imports {
			name, err := strconv.Unquote(spec.Path.Value)
			require.NoError(t, err)
			assert.False(t, strings.HasPrefix(name, "fyne.io/"), "%s imports %s", path, name)
		}
	})
}

var (
	asksTheClock = regexp.MustCompile(`\btime\.(Now|Since|Until)\b`)
	sleeps       = regexp.MustCompile(`\btime\.Sleep\(`)
	skips        = regexp.MustCompile(`\bt\.Skip`)
	unfinished   = regexp.MustCompile(`\b(TODO|FIXME|XXX)\b`)
)

// clocks are the places that may ask the machine what time it is.
var clocks = []string{"main.go", "inventory/book/", "ui/runner/"}

func TestTimeEntersAsAValue(t *testing.T) {
	sources(t, func(path string) {
		text, err := os.ReadFile("../../" + path)
		require.NoError(t, err)
		test := strings.HasSuffix(path, "_test.go")
		if path == "ui/house/house_test.go" {
			return
		}
		allowed := test || slices.ContainsFunc(clocks, func(c string) bool { return strings.HasPrefix(path, c) })
		assert.False(t, !allowed && asksTheClock.Match(text), "%s asks the machine's clock", path)
		bubble := strings.Contains(string(text), `"testing/synctest"`) // its sleeps take no time
		assert.False(t, test && !bubble && sleeps.Match(text), "%s sleeps", path)
		assert.False(t, test && skips.Match(text), "%s skips", path)
		assert.False(t, unfinished.Match(text), "%s is unfinished", path)
	})
}

// topLevel is all that stands at the top of the house.
var topLevel = []string{
	"README.md", "DEVELOPERS.md", "CHANGELOG.md", "LICENSE", "Makefile", "go.mod", "go.sum", "main.go",
	"ui", "inventory", "delivery", "labels", "testdata", "lungwort", "out", "gallery",
}

func TestTopLevel(t *testing.T) {
	entries, err := os.ReadDir("../..")
	require.NoError(t, err)
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), ".") {
			continue
		}
		assert.Contains(t, topLevel, e.Name())
	}
}

// pinned are modules that must not move by themselves, with the reason.
var pinned = map[string]string{
	"fyne.io/fyne/v2":    "v2.7.2",  // 2.8 needs other system libraries
	"modernc.org/libc":   "v1.80.1", // the very version of the driver's own go.mod
	"modernc.org/sqlite": "v1.62.0",
}

func TestPinnedModules(t *testing.T) {
	for module, version := range pinned {
		list := exec.Command("go", "list", "-m", "-f", "{{.Version}}", module)
		list.Dir = "../.."
		out, err := list.Output()
		require.NoError(t, err)
		assert.Equal(t, version, strings.TrimSpace(string(out)), module)
	}
}
