package store_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// untouched are the acts that neither move a thing nor change what a person has,
// each with the reason.
var untouched = map[string]string{
	"AnswerSheet": "keeps an answer about a list",
	"Place":       "puts an address on the map",
	"TakeOutline": "the outline maps are drawn from",
	"PrintedPack": "a paper was printed",
	"PlanRuns":    "done by planning anew",

	"FindPlaces": "puts addresses on the map",
	"TakePlaces": "places addresses are looked up in",
	"TakeRides":  "travel times",
	"SetSize":    "a size of the programme's own",

	"SetClock":      "the time zone the programme lives by",
	"AddUser":       "who works in the book",
	"ChangeRole":    "who works in the book",
	"SwitchUserOff": "who works in the book",
	"SetPassphrase": "who works in the book",
	"SignInOn":      "who works in the book",
	"SignInOff":     "who works in the book",
}

// TestCustodyDrivesEveryAct: an act that is new to the program is driven by the
// model, or stands above with the reason why not.
func TestCustodyDrivesEveryAct(t *testing.T) {
	driven := driven(t)
	acts := acts(t)
	require.Greater(t, len(acts), 60)
	for _, act := range acts {
		_, exempt := untouched[act]
		assert.True(t, exempt != driven[act], "%s: driven %v, exempt %v", act, driven[act], exempt)
	}
}

// acts are the types of the delivery package that decide.
func acts(t *testing.T) []string {
	var found []string
	for _, file := range files(t, filepath.Join("..", "*.go")) {
		for _, d := range file.Decls {
			f, is := d.(*ast.FuncDecl)
			if !is || f.Name.Name != "Decide" || f.Recv == nil {
				continue
			}
			if name, plain := f.Recv.List[0].Type.(*ast.Ident); plain {
				found = append(found, name.Name)
			}
		}
	}
	slices.Sort(found)
	return found
}

// driven are the types of delivery of which the model makes values.
func driven(t *testing.T) map[string]bool {
	made := make(map[string]bool)
	for _, file := range files(t, "custody*_test.go") {
		ast.Inspect(file, func(n ast.Node) bool {
			lit, is := n.(*ast.CompositeLit)
			if !is {
				return true
			}
			if of, is := lit.Type.(*ast.SelectorExpr); is {
				if pkg, is := of.X.(*ast.Ident); is && pkg.Name == "delivery" {
					made[of.Sel.Name] = true
				}
			}
			return true
		})
	}
	return made
}

func files(t *testing.T, pattern string) []*ast.File {
	t.Helper()
	paths, err := filepath.Glob(pattern)
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	var parsed []*ast.File
	for _, path := range paths {
		if strings.HasSuffix(pattern, "*.go") && strings.HasSuffix(path, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		require.NoError(t, err)
		parsed = append(parsed, file)
	}
	return parsed
}
