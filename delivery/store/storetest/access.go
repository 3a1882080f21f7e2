package storetest

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/gas"
	"lungwort/inventory/refusal"
	items "lungwort/inventory/store"
)

// The passphrases of the tests.
const (
	inesWords = "grey harbour lantern moss"
	bramWords = "seven dull copper kettles"
)

// asked is a desk whose book asks for names: Ines is coordinator, Bram has
// another role.
func (d *desk) asked(role delivery.Role) {
	d.t.Helper()
	d.do(delivery.AddUser{Name: "Ines Vey", Role: delivery.AsCoordinator, Passphrase: inesWords})
	d.do(delivery.AddUser{Name: "Bram", Role: role, Passphrase: bramWords})
	d.do(delivery.SignInOn{})
}

func (d *desk) signIn(name, words string) {
	d.t.Helper()
	require.NoError(d.t, d.SignIn(context.Background(), name, words))
}

// try does an act that may be refused.
func (d *desk) try(act delivery.Act) error {
	_, err := d.Do(context.Background(), d.hand(), act)
	return err
}

func namesAreAsked(d *desk) {
	ctx := context.Background()
	item := d.cylinder("E-1")
	assert.ErrorContains(d.t, d.try(delivery.SignInOn{}), "Nobody could sign in as coordinator")
	d.do(delivery.AddUser{Name: "Bram", Role: delivery.AsWarehouse, Passphrase: bramWords})
	assert.ErrorContains(d.t, d.try(delivery.SignInOn{}), "Nobody could sign in as coordinator")
	d.do(delivery.AddUser{Name: "Ines Vey", Role: delivery.AsCoordinator, Passphrase: inesWords})
	d.do(delivery.SignInOn{})

	assert.Equal(d.t, refusal.Locked, refusal.KindOf(d.try(delivery.Read{Item: item, Gauge: new(gas.PSI(1500))})))
	_, err := d.ItemPage(ctx, item)
	assert.Equal(d.t, refusal.Locked, refusal.KindOf(err), "nothing is read either")
	for name, words := range map[string]string{"Ines Vey": bramWords, "Bram": "", "Nobody": inesWords, "": ""} {
		assert.ErrorContains(d.t, d.SignIn(ctx, name, words), "don't fit", name)
	}

	d.signIn(" ines  VEY ", inesWords)
	out := d.do(delivery.Read{Item: item, Gauge: new(gas.PSI(1500))})
	assert.Equal(d.t, "Ines Vey", out.Facts[0].By, "the fact carries who is signed in, not what the caller says")
	d.SignOut()
	assert.Equal(d.t, refusal.Locked, refusal.KindOf(d.try(delivery.Read{Item: item, Gauge: new(gas.PSI(1500))})))

	d.signIn("Ines Vey", inesWords)
	d.do(delivery.SignInOff{})
	d.SignOut()
	out = d.do(delivery.Read{Item: item, Gauge: new(gas.PSI(1400))})
	assert.Equal(d.t, "tester", out.Facts[0].By)
	assert.Empty(d.t, d.mismatches())
}

func rolesHold(d *desk) {
	who, item := d.discharged("Abara", "E-1")
	d.asked(delivery.AsWarehouse)
	d.signIn("Ines Vey", inesWords)
	reading := d.do(delivery.Read{Item: item, Gauge: new(gas.PSI(1500))}).Facts[0].ID
	d.signIn("Bram", bramWords)

	own := d.do(delivery.Enrol{Spec: inventory.Spec{Kind: inventory.Regulator, Serial: "R-1"}, Depot: "harbour"}).Facts[0].Item
	held := d.do(delivery.Quarantine{Item: own, Why: "bent"}).Facts[0].ID
	d.do(delivery.Retract{Fact: held, Why: "another one"})
	before := d.countFacts()
	for _, act := range []delivery.Act{
		delivery.Call{Person: who}, delivery.Register{Person: delivery.Person{Family: "Lund"}},
		delivery.Settings{Programme: delivery.NewProgramme()}, delivery.SignInOff{}, delivery.ChangeRole{Name: "Bram", Role: delivery.AsCoordinator},
		delivery.SetPassphrase{Name: "Ines Vey", Passphrase: bramWords}, delivery.Retract{Fact: reading, Why: "mine"},
		delivery.AddUser{Name: "Col", Role: delivery.AsCoordinator, Passphrase: bramWords},
	} {
		err := d.try(act)
		assert.Equal(d.t, refusal.Forbidden, refusal.KindOf(err), "%T: %v", act, err)
	}
	assert.Equal(d.t, refusal.Forbidden, refusal.KindOf(d.DoAll(context.Background(), []store.Dated{{Hand: d.hand(), Act: delivery.Call{Person: who}}}, nil)))
	assert.Equal(d.t, before, d.countFacts(), "what was refused wrote nothing")

	d.do(delivery.SetPassphrase{Name: "bram", Passphrase: "a new set of dull words"})
	assert.Error(d.t, d.SignIn(context.Background(), "Bram", bramWords))
	d.signIn("Bram", "a new set of dull words")

	d.signIn("Ines Vey", inesWords)
	assert.ErrorContains(d.t, d.try(delivery.ChangeRole{Name: "Ines Vey", Role: delivery.AsReader}), "only coordinator")
	assert.ErrorContains(d.t, d.try(delivery.SwitchUserOff{Name: "Ines Vey"}), "only coordinator")
	d.do(delivery.SwitchUserOff{Name: "Bram"})
	assert.ErrorContains(d.t, d.SignIn(context.Background(), "Bram", "a new set of dull words"), "switched off")
	user, _ := d.User()
	assert.Equal(d.t, "Ines Vey", user.Name)
}

// A role changed at one desk holds at the other from the next act on.
func rolesChangeUnderWay(d *desk) {
	item := d.cylinder("E-1")
	d.asked(delivery.AsWarehouse)
	other := store.NewDesk(d.Book())
	require.NoError(d.t, other.SignIn(context.Background(), "Bram", bramWords))
	read := delivery.Read{Item: item, Gauge: new(gas.PSI(1500))}
	_, err := other.Do(context.Background(), d.hand(), read)
	require.NoError(d.t, err)
	d.signIn("Ines Vey", inesWords)
	d.do(delivery.ChangeRole{Name: "Bram", Role: delivery.AsReader})
	_, err = other.Do(context.Background(), d.hand(), read)
	assert.Equal(d.t, refusal.Forbidden, refusal.KindOf(err))
	d.do(delivery.SwitchUserOff{Name: "Bram"})
	_, err = other.ItemPage(context.Background(), item)
	assert.ErrorContains(d.t, err, "switched off")
}

// The facts of who works in the book hold no passphrase and no hash, nor does
// what a tester may read of them.
func secretsAreNoFacts(d *desk) {
	d.asked(delivery.AsReader)
	d.signIn("Ines Vey", inesWords)
	facts := d.facts(items.About{})
	for _, f := range facts {
		assert.NotContains(d.t, delivery.Sentence(f), "copper")
	}
	kept := 0
	require.NoError(d.t, d.Book().Read(context.Background(), func(tx *book.Tx) error {
		if err := tx.QueryRow(`SELECT count(*) FROM fact WHERE body LIKE '%copper%' OR body LIKE '%argon2%'`).Scan(&kept); err != nil {
			return err
		}
		var hash string
		if err := tx.QueryRow(`SELECT hash FROM desk_user WHERE name = 'bram'`).Scan(&hash); err != nil {
			return err
		}
		assert.True(d.t, strings.HasPrefix(hash, "$argon2id$v=19$m=65536,t=3,p=4$"), hash)
		return nil
	}))
	assert.Zero(d.t, kept)
	for _, f := range facts {
		if f.Statement.Says() == "sign-in set" {
			assert.ErrorContains(d.t, d.try(delivery.Retract{Fact: f.ID, Why: "no"}), "who may work in the book")
		}
	}
}

// guess tries to sign in with the wrong words.
func (d *desk) guess(name string) error {
	return d.SignIn(context.Background(), name, "none of these words fits")
}

// countFacts counts the facts past every role.
func (d *desk) countFacts() (n int) {
	d.t.Helper()
	require.NoError(d.t, d.Book().Read(context.Background(), func(tx *book.Tx) (err error) {
		n, err = items.Count(tx)
		return err
	}))
	return n
}

// Failed sign-ins slow down, are recorded, and are the coordinator's to see.
func guessingSlowsDown(d *desk) {
	ctx := context.Background()
	d.asked(delivery.AsOnCall)
	for range 3 {
		assert.ErrorContains(d.t, d.guess("Bram"), "don't fit")
	}
	assert.ErrorContains(d.t, d.guess("Bram"), "3 sign-ins as Bram failed. The next is taken in 30s")
	assert.ErrorContains(d.t, d.SignIn(ctx, "Bram", bramWords), "The next is taken in", "the right one waits as well")
	d.signIn("Ines Vey", inesWords)
	access, err := d.Access(ctx)
	require.NoError(d.t, err)
	require.Len(d.t, access.Users, 2)
	assert.Len(d.t, access.Users[1].Failed, 3)
	_ = d.guess("grey harbour") // a passphrase in the wrong field
	access, err = d.Access(ctx)
	require.NoError(d.t, err)
	assert.Len(d.t, access.Strangers, 1)
	for _, f := range d.facts(items.About{Says: "sign-in failed"}) {
		assert.NotContains(d.t, delivery.Sentence(f), "harbour")
	}
	d.do(delivery.SetPassphrase{Name: "Bram", Passphrase: bramWords})
	d.signIn("Bram", bramWords) // a coordinator's new passphrase ends the waiting
	access, err = d.Access(ctx)
	require.NoError(d.t, err)
	assert.Empty(d.t, access.Users[1].Failed, "others are not shown what failed")
}

// What each role is shown of people, by every door a screen or command reads
// through.
func rolesSee(d *desk) {
	ctx := context.Background()
	who, item := d.discharged("Abara", "E-1")
	heard := 91.0
	d.do(delivery.Call{Person: who, Answered: true, SpO2: &heard, Worse: true, Problem: "coughs at night"})
	for _, tc := range []struct {
		role        delivery.Role
		name, heard bool
	}{
		{delivery.AsCoordinator, true, true}, {delivery.AsReader, true, true}, {delivery.AsOnCall, true, true},
		{delivery.AsDriverDesk, true, false}, {delivery.AsWarehouse, false, false},
	} {
		whole, err := d.WatchOne(ctx, who, d.now)
		require.NoError(d.t, err)
		seen := store.NewDesk(d.Book())
		d.pretend(seen, tc.role)
		page, err := seen.Page(ctx, who, d.now)
		require.NoError(d.t, err)
		homes, err := seen.Homes(ctx, "abara", 10)
		require.NoError(d.t, err)
		every, err := seen.Homes(ctx, "", 10)
		require.NoError(d.t, err)
		watch, err := seen.WatchOne(ctx, who, d.now)
		require.NoError(d.t, err)
		thing, err := seen.ItemPage(ctx, item)
		require.NoError(d.t, err)
		names, err := seen.Names(ctx)
		require.NoError(d.t, err)
		streets, err := seen.Streets(ctx)
		require.NoError(d.t, err)
		all := spell(page, every, watch, thing, names, streets)
		for _, personal := range []string{"Abara", "Ines", "Gull Row", "555-0110"} {
			assert.Equal(d.t, tc.name, strings.Contains(all, personal), "%s sees %s", tc.role, personal)
		}
		assert.Equal(d.t, tc.name, len(homes) == 1, "%s finds by name", tc.role)
		assert.Equal(d.t, tc.heard, strings.Contains(all, "coughs at night"), "%s hears of the cough", tc.role)
		assert.Equal(d.t, tc.heard, page.Care.LastCall.SpO2 != nil, tc.role)
		assert.Equal(d.t, whole.Verdict, watch.Verdict, "%s sees another verdict", tc.role)
		assert.Equal(d.t, whole.ActBy(), watch.ActBy(), tc.role)
	}
}

// pretend puts somebody of a role at a desk.
func (d *desk) pretend(other *store.Desk, role delivery.Role) {
	d.t.Helper()
	name := "user of " + string(role)
	if _, on := d.User(); !on {
		if access, _ := d.Access(context.Background()); !access.On {
			d.asked(delivery.AsReader)
		}
		d.signIn("Ines Vey", inesWords)
	}
	d.do(delivery.AddUser{Name: name, Role: role, Passphrase: "plain words for the test"})
	require.NoError(d.t, other.SignIn(context.Background(), name, "plain words for the test"))
}

// The privacy view shows initials and numbers, and what it shows is never
// written back.
func veiledReadings(d *desk) {
	who, item := d.discharged("Abara", "E-1")
	ctx := store.Veiled(context.Background())
	page, err := d.Page(ctx, who, d.now)
	require.NoError(d.t, err)
	thing, err := d.ItemPage(ctx, item)
	require.NoError(d.t, err)
	found, err := d.Homes(ctx, "abara", 5)
	require.NoError(d.t, err)
	all := spell(page, thing, found)
	for _, personal := range []string{"Abara", "Ines", "Gull Row", "555-0110"} {
		assert.NotContains(d.t, all, personal)
	}
	assert.Equal(d.t, "I. A. "+string(who), page.Person.Name())
	assert.Len(d.t, found, 1, "a name typed is still found")
	assert.ErrorContains(d.t, d.try(delivery.Register{Person: page.Person, Address: page.Address}), "privacy view")
	assert.Equal(d.t, "Abara, Ines", d.page(who).Person.Name())
	act := delivery.Register{Person: d.page(who).Person, Address: d.page(who).Address}
	out, err := d.Do(ctx, d.hand(), act)
	require.NoError(d.t, err)
	assert.Equal(d.t, "I. A. "+string(who)+" is in the book.", out.Says)
	assert.Equal(d.t, "Abara, Ines is in the book.", d.do(act).Says)
	plain, err := d.Unveiled().Page(ctx, who, d.now)
	require.NoError(d.t, err)
	assert.Equal(d.t, "Abara, Ines", plain.Person.Name(), "papers show who people are")
}

// spell writes out what was read, for a test to look in.
func spell(read ...any) string {
	var all strings.Builder
	for _, r := range read {
		fmt.Fprintf(&all, "%+v\n", r)
		body, err := json.Marshal(r)
		if err == nil {
			all.Write(body)
		}
	}
	return all.String()
}
