package book_test

import (
	"fmt"
	"net/url"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
	"lungwort/inventory/refusal"
)

// secret is a password that must be told to nobody.
const secret = "hush-hush"

// secured is a server as a hospital would run it: set up by somebody who is no
// superuser, with the roles we ship and three people.
type secured struct {
	*booktest.Server
	authority string
}

func newSecured(t *testing.T) secured {
	t.Helper()
	s, authority, err := booktest.NewSecureServer("localhost")
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, s.Remove()) })
	s.Run(t, "postgres", `CREATE ROLE caretaker LOGIN CREATEROLE CREATEDB`)
	s.Script(t, "caretaker", book.Roles)
	for person, role := range map[string]string{"olga": "owner", "omar": "owner", "ines": "desk", "lena": "look"} {
		s.Script(t, "caretaker", fmt.Sprintf(`CREATE ROLE %s LOGIN PASSWORD '%s' IN ROLE lungwort_%s`, person, secret, role))
	}
	return secured{s, authority}
}

func (s secured) of(person string) string {
	return fmt.Sprintf("postgres://%s:%s@localhost:%d/lungwort?sslrootcert=%s", person, secret, s.Port(), url.QueryEscape(s.authority))
}

// assertSecret wants a refusal that repeats no secret, in any of its parts.
func assertSecret(t *testing.T, err error, kind refusal.Kind, says string) {
	t.Helper()
	var r *refusal.Error
	require.ErrorAs(t, err, &r)
	assert.Equal(t, kind, r.Kind, "%v: %v", err, r.Cause)
	assert.ErrorContains(t, err, says)
	assert.NotEmpty(t, r.Next)
	assert.NotContains(t, fmt.Sprintf("%v %v", err, r.Cause), secret)
}

func TestNobodyMayDoMoreThanTheRoleAllows(t *testing.T) {
	s := newSecured(t)
	_, err := book.Create(ctx, s.of("ines"), withThings)
	assertSecret(t, err, refusal.ReadOnly, "ines may not do this")
	made, err := book.Create(ctx, s.of("olga"), withThings)
	require.NoError(t, err)
	require.NoError(t, made.Close())

	desk := opened(t, s.of("ines"), withThings)
	writeThing(t, desk, "R-1")
	writeThing(t, opened(t, s.of("omar"), withThings), "R-2")
	for _, query := range []string{
		`UPDATE fact SET note = 'otherwise'`, `DELETE FROM fact`, `TRUNCATE fact`,
		`ALTER TABLE fact DISABLE TRIGGER ALL`, `DROP TABLE fact`, `CREATE TABLE other (id BIGINT)`,
		`DELETE FROM book_migration`, `INSERT INTO book_migration VALUES ('a', 'b', 'c', 0)`,
	} {
		err := desk.Write(ctx, func(tx *book.Tx) error {
			_, err := tx.Exec(query)
			return err
		})
		assert.Equal(t, refusal.ReadOnly, refusal.KindOf(err), "%s: %v", query, err)
	}

	looker, err := book.OpenReadOnly(ctx, s.of("lena"), withThings)
	require.NoError(t, err)
	assert.Equal(t, 2, countThings(t, looker))
	require.NoError(t, looker.Close())
	err = opened(t, s.of("lena"), withThings).Write(ctx, func(tx *book.Tx) error {
		_, err := addThing(tx, "R-3")
		return err
	})
	assertSecret(t, err, refusal.ReadOnly, "lena may not do this")

	// A newer version is brought in by any owner, whoever made the tables.
	later := with(things, steps("later", "001_note.sql", noteTable))
	_, err = book.Open(ctx, s.of("ines"), later)
	assertSecret(t, err, refusal.Unready, "written by an older version")
	opened(t, s.of("omar"), later)
	writeThing(t, opened(t, s.of("ines"), later), "R-4")
}

func TestAServerHasToProveWhoItIs(t *testing.T) {
	s := newSecured(t)
	address := func(host, settings string) string {
		return fmt.Sprintf("postgres://ines:%s@%s:%d/lungwort?%s", secret, host, s.Port(), settings)
	}
	trusting := "sslrootcert=" + url.QueryEscape(s.authority)
	for name, c := range map[string]struct {
		address string
		kind    refusal.Kind
		says    string
	}{
		"nobody signed it":   {address("localhost", ""), refusal.Foreign, "nobody this machine trusts has signed"},
		"another name":       {address("127.0.0.1", trusting), refusal.Foreign, "its certificate is for another name"},
		"proven":             {address("localhost", trusting), refusal.NotFound, "There is no book in lungwort on localhost"},
		"unproven on demand": {address("127.0.0.1", "sslmode=require"), refusal.NotFound, "There is no book"},
		"in the clear":       {address("127.0.0.1", "sslmode=disable"), refusal.Locked, "did not let ines in"},
		"wrong password":     {address("localhost", trusting+"&password=wrong"), refusal.Locked, "did not let ines in"},
		"no TLS there":       {fmt.Sprintf("postgres://ines:%s@127.0.0.1:%d/lungwort", secret, booktest.Shared(t).Port()), refusal.Foreign, "does not encrypt"},
		"nobody there":       {"postgres://ines:" + secret + "@127.0.0.1:1/lungwort", refusal.Unreachable, "can't be reached"},
		"no port":            {"postgres://ines:" + secret + "@localhost:port/lungwort", refusal.Invalid, "can't be understood"},
		"no setting":         {"postgres://ines:" + secret + "@localhost/lungwort?sslmode=" + secret, refusal.Invalid, "can't be understood"},
		"no authority":       {address("localhost", "sslrootcert=/nowhere"), refusal.Invalid, "can't be understood"},
	} {
		_, err := book.Open(ctx, c.address, withThings)
		require.Error(t, err, name)
		assertSecret(t, err, c.kind, c.says)
		assert.NotContains(t, book.Named(c.address), secret, name)
	}
}
