package delivery

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory"
)

// acts finds every act of the package in its source.
func acts(t *testing.T) map[string]bool {
	t.Helper()
	entries, err := os.ReadDir(".")
	require.NoError(t, err)
	found := map[string]bool{}
	for _, e := range entries {
		if !strings.HasSuffix(e.Name(), ".go") || strings.HasSuffix(e.Name(), "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), e.Name(), nil, 0)
		require.NoError(t, err)
		for _, d := range file.Decls {
			f, is := d.(*ast.FuncDecl)
			if !is || f.Name.Name != "Decide" || f.Recv == nil {
				continue
			}
			if name, plain := f.Recv.List[0].Type.(*ast.Ident); plain && name.IsExported() {
				found[name.Name] = true
			}
		}
	}
	return found
}

// Every act is somebody's: an act nobody thought of would be the coordinator's
// alone.
func TestEveryActIsInOneRemit(t *testing.T) {
	where := map[string]int{}
	for _, r := range Remits() {
		for _, a := range r.acts {
			where[reflect.TypeOf(a).Name()]++
		}
	}
	all := acts(t)
	require.Greater(t, len(all), 60)
	for name := range all {
		assert.Equal(t, 1, where[name], name)
	}
	for name := range where {
		assert.True(t, all[name], name)
	}
}

// The table of roles, act by act. What each role needs is our own choice.
func TestRoles(t *testing.T) {
	for _, tc := range []struct {
		act  Act
		who  string // of d(river), w(arehouse), o(n call), r(eader)
		does string
	}{
		{Enrol{}, "w", "things come in"}, {Release{}, "w", "the bench lets go"}, {Return{}, "dw", "returns"}, {Read{}, "dwo", "gauges"},
		{Visit{}, "do", "stops"}, {PlanRuns{}, "d", "runs"}, {Call{}, "o", "calls"}, {Order{}, "o", "orders by phone"},
		{Admission{}, "", "discharge"}, {Erase{}, "", "erasing"}, {Settings{}, "", "settings"}, {TakeIn{}, "", "lists"},
		{AddUser{}, "", "users"}, {SignInOff{}, "", "switching sign-in off"},
	} {
		for letter, role := range map[string]Role{"d": AsDriverDesk, "w": AsWarehouse, "o": AsOnCall, "r": AsReader} {
			err := User{Name: "Bram", Role: role}.May(tc.act, nil)
			assert.Equal(t, strings.Contains(tc.who, letter), err == nil, "%s: %s: %v", role, tc.does, err)
		}
		assert.NoError(t, User{Role: AsCoordinator}.May(tc.act, nil))
	}
	for _, r := range Roles() {
		assert.NotEmpty(t, r.Sees().InWords())
	}
	assert.Empty(t, AsReader.Does())
	assert.Len(t, AsCoordinator.Does(), len(Remits()))
}

// The wait grows and ends: NIST SP 800-63B, 5.2.2 names 30 seconds up to an hour.
func TestSignInWait(t *testing.T) {
	for failed, want := range map[int]time.Duration{
		0: 0, 1: 0, 2: 0, 3: 30 * time.Second, 4: time.Minute, 5: 2 * time.Minute, 9: 32 * time.Minute, 10: time.Hour, 11: time.Hour, 1000: time.Hour,
	} {
		assert.Equal(t, want, SignInWait(failed), "%d", failed)
	}
}

// What must not be seen is gone, and what the gas is reckoned with stays.
func TestWhatIsNotShown(t *testing.T) {
	spo2 := 91.0
	f := inventory.Fact{Person: "p00001", Statement: &Called{Answered: true, SpO2: &spo2, Worse: true, Problem: "coughs", Parts: "tube"}}
	shown, may := AsDriverDesk.Sees().Shown(f)
	require.True(t, may)
	assert.Equal(t, &Called{Answered: true, Parts: "tube"}, shown.Statement)
	assert.Equal(t, 91.0, *f.Statement.(*Called).SpO2, "the fact itself stays")
	_, may = AsWarehouse.Sees().Shown(f)
	assert.False(t, may)
	_, may = AsDriverDesk.Sees().Shown(inventory.Fact{Person: "p00001", Statement: &Banded{}})
	assert.False(t, may)
	p := Person{ID: "p00001", Family: "Abara", Given: "Ines", Born: "1950-01-01", Record: "R-1", Note: "n", Phones: []Phone{{"555-0110", ""}}, Contact: &Phone{"555-0111", "Ann"}}
	assert.Equal(t, Person{ID: "p00001", Family: "I. A. p00001", Phones: []Phone{{notShown, ""}}, Contact: &Phone{notShown, ""}, Masked: true}, p.Veil())
	assert.Equal(t, "p00001", p.Hidden().Name())
}
