package store

import (
	"fmt"
	"strings"
	"time"

	"lungwort/inventory"
	"lungwort/inventory/book"
	"lungwort/inventory/gas"
)

// Filter chooses items. Empty fields choose all.
type Filter struct {
	States []inventory.State
	Kind   inventory.Kind
	Size   gas.SizeCode
	Place  inventory.Place
	Person inventory.PersonID
	Text   string // part of serial, model, size or state
	// Unlabelled chooses those no label of ours was printed for, Since those
	// that came into the book then or later.
	Unlabelled bool
	Since      time.Time
	Limit      int // zero: no limit
}

// Items returns the chosen items by tag, and how many there are in all.
func Items(tx *book.Tx, f Filter) (items []inventory.Item, total int, err error) {
	where, args := f.where()
	if err := tx.QueryRow(`SELECT count(*) FROM item_now WHERE `+where, args...).Scan(&total); err != nil {
		return nil, 0, err
	}
	query := `SELECT body FROM item_now WHERE ` + where + ` ORDER BY tag, item_id`
	if f.Limit > 0 {
		args = append(args, f.Limit)
		query += fmt.Sprintf(" LIMIT $%d", len(args))
	}
	items, err = book.List(tx, scanItem, query, args...)
	return items, total, err
}

func (f Filter) where() (string, []any) {
	terms, args := []string{"1 = 1"}, []any{}
	add := func(term string, arg any) {
		args = append(args, arg)
		terms = append(terms, fmt.Sprintf(term, len(args)))
	}
	if len(f.States) > 0 {
		marks := make([]string, len(f.States))
		for i, s := range f.States {
			args = append(args, string(s))
			marks[i] = fmt.Sprintf("$%d", len(args))
		}
		terms = append(terms, "state IN ("+strings.Join(marks, ", ")+")")
	}
	if f.Kind != "" {
		add("kind = $%d", string(f.Kind))
	}
	if f.Size != "" {
		add("size = $%d", string(f.Size))
	}
	if f.Place != "" {
		add("place = $%d", string(f.Place))
	}
	if f.Person != "" {
		add("person_id = $%d", string(f.Person))
	}
	if f.Unlabelled {
		terms = append(terms, `NOT EXISTS (
			SELECT 1 FROM fact AS printed
			WHERE printed.item_id = item_now.item_id AND printed.says = 'labelled'
			  AND NOT EXISTS (SELECT 1 FROM fact AS back WHERE back.item_id = printed.item_id AND back.corrects = printed.id))`)
	}
	if !f.Since.IsZero() {
		add(`EXISTS (
			SELECT 1 FROM fact AS entered
			WHERE entered.item_id = item_now.item_id AND entered.says = 'enrolled' AND entered.happened >= $%d)`, book.Instant(f.Since))
	}
	for _, word := range strings.Fields(Fold(f.Text)) {
		add(`folded LIKE $%d ESCAPE '!'`, "%"+EscapeLike(word)+"%")
	}
	return strings.Join(terms, " AND "), args
}

// EscapeLike returns text so that LIKE … ESCAPE '!' takes each sign for
// itself.
func EscapeLike(text string) string {
	return strings.NewReplacer("!", "!!", "%", "!%", "_", "!_").Replace(text)
}

// ByTag returns the items that carry a tag number: one, or none.
func ByTag(tx *book.Tx, tag uint32) ([]inventory.Item, error) {
	return book.List(tx, scanItem, `SELECT body FROM item_now WHERE tag = $1 ORDER BY item_id`, int64(tag))
}

// BySerial returns the items of a serial; several makers may have used it.
func BySerial(tx *book.Tx, serial string) ([]inventory.Item, error) {
	return book.List(tx, scanItem, `
		SELECT body FROM item_now
		WHERE serial_key = $1 AND serial_key <> ''
		ORDER BY tag, item_id`, inventory.SerialKey(serial))
}

// NearSerial returns the items whose serial is easily mistaken for the given
// one: candidates to ask about.
func NearSerial(tx *book.Tx, serial string) ([]inventory.Item, error) {
	return book.List(tx, scanItem, `
		SELECT body FROM item_now
		WHERE near_key = $1 AND near_key <> '' AND serial_key <> $2
		ORDER BY tag, item_id`, inventory.NearKey(serial), inventory.SerialKey(serial))
}

// SerialKeys returns the keys of the serials in the book of at most so many
// signs, in order. The index of serials alone answers it.
func SerialKeys(tx *book.Tx, longest int) ([]string, error) {
	return book.List(tx, func(row book.Row) (string, error) {
		var key string
		return key, row.Scan(&key)
	}, `SELECT DISTINCT serial_key FROM item_now WHERE serial_key <> '' AND length(serial_key) <= $1 ORDER BY serial_key`, longest)
}

// Recalled returns the items that a recall notice was found to name.
func Recalled(tx *book.Tx) ([]inventory.Item, error) {
	return book.List(tx, scanItem, `
		SELECT body FROM item_now
		WHERE item_id IN (SELECT item_id FROM fact WHERE says = 'recalled')
		ORDER BY tag, item_id`)
}

// Tally counts items by kind, size and state.
type Tally struct {
	Kind  inventory.Kind
	Size  gas.SizeCode
	State inventory.State
	Count int
}

// Tallies returns how many items there are of each kind, size and state.
func Tallies(tx *book.Tx) ([]Tally, error) {
	return book.List(tx, func(row book.Row) (Tally, error) {
		var t Tally
		return t, row.Scan(&t.Kind, &t.Size, &t.State, &t.Count)
	}, `
		SELECT kind, size, state, count(*)
		FROM item_now
		GROUP BY kind, size, state
		ORDER BY kind, size, state`)
}

// PlaceTally counts items at one place by kind, size and state. All homes are
// one place, "address".
type PlaceTally struct {
	Tally
	Place inventory.Place
}

// PlaceTallies returns how many items of each kind, size and state are where.
func PlaceTallies(tx *book.Tx) ([]PlaceTally, error) {
	return book.List(tx, func(row book.Row) (PlaceTally, error) {
		var t PlaceTally
		return t, row.Scan(&t.Place, &t.Kind, &t.Size, &t.State, &t.Count)
	}, `
		SELECT standing.place, kind, size, state, count(*)
		FROM (
			SELECT CASE WHEN place LIKE 'address:%' THEN 'address' ELSE place END AS place, kind, size, state
			FROM item_now) AS standing
		GROUP BY standing.place, kind, size, state
		ORDER BY standing.place, kind, size, state`)
}

// CountBySize counts the cylinders of a state, by their size.
func CountBySize(tx *book.Tx, state inventory.State) (map[gas.SizeCode]int, error) {
	type counted struct {
		size gas.SizeCode
		n    int
	}
	sizes, err := book.List(tx, func(row book.Row) (c counted, err error) {
		err = row.Scan(&c.size, &c.n)
		return c, err
	}, `SELECT size, count(*) FROM item_now WHERE state = $1 AND kind = $2 GROUP BY size`, string(state), string(inventory.Cylinder))
	count := make(map[gas.SizeCode]int, len(sizes))
	for _, c := range sizes {
		count[c.size] = c.n
	}
	return count, err
}

// Shelf is how many things of a kind are ready, of how many that are in use at
// all.
type Shelf struct {
	Kind       inventory.Kind
	Ready, All int
}

// Shelves counts the things of each kind, without those missing or retired and
// those of others.
func Shelves(tx *book.Tx) ([]Shelf, error) {
	return book.List(tx, func(row book.Row) (s Shelf, err error) { return s, row.Scan(&s.Kind, &s.Ready, &s.All) }, `
		SELECT kind, sum(CASE WHEN state = $1 THEN 1 ELSE 0 END), count(*)
		FROM item_now WHERE state NOT IN ($2, $3, $4) GROUP BY kind ORDER BY kind`,
		string(inventory.Ready), string(inventory.Missing), string(inventory.Gone), string(inventory.NotOurs))
}
