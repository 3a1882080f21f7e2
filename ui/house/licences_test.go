package house_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/licensecheck"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// welcome are the licences, by their SPDX names, that let a hospital use and
// pass on the program with a notice alone.
var welcome = []string{"0BSD", "Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "ISC", "MIT", "Unlicense", "Zlib"}

// enough is how much of a licence's text must be recognised, in percent.
const enough = 75

// TestEveryModuleHasAWelcomeLicence reads the licences of all that the program
// is built from. "make lint" shows the list.
func TestEveryModuleHasAWelcomeLicence(t *testing.T) {
	list := exec.Command("go", "list", "-deps", "-tags", "ci,migrated_fynedo", "-f", "{{with .Module}}{{.Path}} {{.Version}} {{.Dir}}{{end}}", ".")
	list.Dir = "../.."
	out, err := list.Output()
	require.NoError(t, err)
	modules := strings.Split(strings.TrimSpace(string(out)), "\n")
	slices.Sort(modules)
	for _, module := range slices.Compact(modules) {
		path, rest, _ := strings.Cut(module, " ")
		version, dir, _ := strings.Cut(rest, " ")
		if path == "lungwort" || path == "" {
			continue
		}
		found := licences(t, dir)
		t.Logf("%-48s %-42s %s", path, version, strings.Join(found, " or "))
		assert.True(t, slices.ContainsFunc(found, func(l string) bool { return slices.Contains(welcome, l) }), "%s: %v", path, found)
	}
}

// licences returns the SPDX names of the licences that lie in a module's
// folder.
func licences(t *testing.T, dir string) (found []string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, e := range entries {
		name := strings.ToUpper(e.Name())
		if e.IsDir() || !strings.HasPrefix(name, "LICEN") && !strings.HasPrefix(name, "COPYING") && !strings.HasPrefix(name, "UNLICEN") {
			continue
		}
		text, err := os.ReadFile(filepath.Join(dir, e.Name()))
		require.NoError(t, err)
		cover := licensecheck.Scan(text)
		if cover.Percent < enough {
			found = append(found, "unknown text in "+e.Name())
			continue
		}
		for _, m := range cover.Match {
			found = append(found, m.ID)
		}
	}
	slices.Sort(found)
	return slices.Compact(found)
}
