package store_test

import (
	"context"
	"flag"
	"fmt"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
	"lungwort/inventory/gas"
)

// wholeTable is how the server explains that it reads a table from end to end,
// of those that grow with the years.
var wholeTable = regexp.MustCompile(`Seq Scan on (fact|fact_seal|item_now|person_now|identity)\b[^\n]*`)

var grown = flag.Int("grown", 20_000, "facts of years past in the book whose queries are explained")

// grow adds readings of years past to every cylinder, as the server itself
// makes them: without seals, which no query here reads.
func grow(t *testing.T, s *booktest.Server, database string) {
	t.Helper()
	s.Run(t, database, fmt.Sprintf(`
		INSERT INTO fact (id, says, happened, happened_offset, recorded, by_whom, source, item_id, body)
		SELECT (SELECT max(id) FROM fact) + n, one.says, one.happened, one.happened_offset, one.recorded, one.by_whom, one.source,
		       'i' || lpad((8 + n %% 1990)::text, 6, '0'), one.body
		FROM generate_series(1, %d) AS n,
		     (SELECT * FROM fact WHERE says = 'observed' ORDER BY id LIMIT 1) AS one`, *grown))
}

// What every act, every scan and every page asks is answered by an index,
// however many facts there are. The server explains each statement it runs.
func TestHotQueriesUseTheirIndexes(t *testing.T) {
	ctx := context.Background()
	s, err := booktest.NewServer()
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, s.Remove()) })
	name := s.Empty(t)
	b, err := book.Create(ctx, s.URL(name), book.Options{Now: booktest.NewClock().Now, Sets: store.Migrations()})
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, b.Close()) })
	desk := store.NewDesk(b)
	p := delivery.NewProgramme()
	p.Depots = []delivery.Site{{Name: "harbour"}}
	for _, act := range []delivery.Act{delivery.Settings{Programme: p}, stock{cylinders: 2000, persons: 1000}} {
		_, err = desk.Do(ctx, by("Ines"), act)
		require.NoError(t, err)
	}
	grow(t, s, name)
	s.Run(t, name, `ANALYZE`)
	require.NoError(t, s.Stop())
	require.NoError(t, s.Start("session_preload_libraries=auto_explain", "auto_explain.log_min_duration=0",
		"auto_explain.log_nested_statements=on", "log_min_messages=log"))

	for _, ask := range []struct {
		what string
		do   func() error
	}{
		{"read a gauge", func() error {
			_, err := desk.Do(ctx, by("Ines"), delivery.Read{Item: "i000007", Gauge: new(gas.PSI(1500))})
			return err
		}},
		{"lend", func() error { _, err := desk.Do(ctx, by("Ines"), lend{"i000007", "p00007"}); return err }},
		{"read a gauge at home", func() error {
			_, err := desk.Do(ctx, by("Ben"), delivery.Read{Item: "i000007", Gauge: new(gas.PSI(1400))})
			return err
		}},
		{"scan a serial", func() error { _, err := desk.Item(ctx, "E-00007", 0); return err }},
		{"scan a label", func() error { _, err := desk.Item(ctx, "", 7); return err }},
		{"a record number", func() error { _, err := desk.Person(ctx, "p00007"); return err }},
		{"an item's page", func() error { _, err := desk.ItemPage(ctx, "i000007"); return err }},
		{"a person's page", func() error { _, err := desk.Page(ctx, inventory.PersonID("p00007"), booktest.Start); return err }},
		{"a second record of a person", func() error {
			return desk.Ask(ctx, booktest.Start, func(v delivery.View) error { _, err := v.Twins("p00007"); return err })
		}},
		{"the settings", func() error { _, err := desk.Programme(ctx); return err }},
	} {
		before := len(s.Log(t))
		require.NoError(t, ask.do(), ask.what)
		log := s.Log(t)[before:]
		assert.Contains(t, log, "Query Text", "%s: the server explains", ask.what)
		for _, scan := range wholeTable.FindAllString(log, -1) {
			t.Errorf("%s: %s", ask.what, scan)
		}
		if t.Failed() {
			t.Fatal(log)
		}
	}
}
