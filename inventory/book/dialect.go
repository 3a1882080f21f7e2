package book

import (
	"fmt"
	"regexp"
	"strings"
)

// dialect spells the words of a Set's migrations for one database.
type dialect map[string]string

// sqliteDialect is the dialect of the embedded database. A word that takes the
// name of a table has it wherever %[1]s stands.
var sqliteDialect = dialect{
	"ID":     "INTEGER PRIMARY KEY",
	"INT":    "INTEGER",
	"REAL":   "REAL",
	"TEXT":   "TEXT",
	"BLOB":   "BLOB",
	"STRICT": " STRICT",
	"APPEND_ONLY": `CREATE TRIGGER %[1]s_never_changes BEFORE UPDATE ON %[1]s
BEGIN SELECT RAISE(ABORT, '%[1]s is append-only: correct it with a new fact'); END;
CREATE TRIGGER %[1]s_never_goes BEFORE DELETE ON %[1]s
BEGIN SELECT RAISE(ABORT, '%[1]s is append-only: correct it with a new fact'); END;`,
}

var (
	braces = regexp.MustCompile(`\{\{[^}]*\}\}`)
	word   = regexp.MustCompile(`^\{\{([A-Z_]+)(?: ([a-z0-9_]+))?\}\}$`)
)

// expand writes the words of the dialect out in text.
func (d dialect) expand(text string) (string, error) {
	var bad error
	out := braces.ReplaceAllStringFunc(text, func(match string) string {
		parts := word.FindStringSubmatch(match)
		if parts == nil {
			bad = fmt.Errorf("%s is no word of the dialect", match)
			return match
		}
		spelling, known := d[parts[1]]
		table := parts[2]
		takesTable := strings.Contains(spelling, "%[1]s")
		switch {
		case !known || takesTable != (table != ""):
			bad = fmt.Errorf("%s is no word of the dialect", match)
		case takesTable:
			return fmt.Sprintf(spelling, table)
		}
		return spelling
	})
	return out, bad
}
