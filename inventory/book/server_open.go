package book

import (
	"context"
	"crypto/rand"
	"database/sql"
	_ "embed"
	"net"
	"slices"
	"strings"
	"time"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/stdlib"
)

func createOnServer(ctx context.Context, address string, o Options) (*Book, error) {
	b, err := atServer(ctx, address, toReadAndWrite, o, func(s *server, b *Book, all []migration) error {
		return s.build(ctx, b.writer, b.now(), all, o.settle)
	})
	if err == nil {
		b.made = true
	}
	return b, err
}

func openOnServer(ctx context.Context, address string, o Options) (*Book, error) {
	return atServer(ctx, address, toReadAndWrite, o, func(s *server, b *Book, all []migration) error {
		return s.bringUpToDate(ctx, b.writer, b.now(), all, o.settle)
	})
}

func lookOnServer(ctx context.Context, address string, o Options) (*Book, error) {
	return atServer(ctx, address, toLook, o, func(s *server, b *Book, all []migration) error {
		pending, err := s.peek(ctx, b.writer, all)
		if err == nil && len(pending) > 0 {
			err = older(s.named)
		}
		if err == nil {
			err, b.writer = b.writer.Close(), nil
		}
		return err
	})
}

// atServer connects to the server of an address, lets prepare put the book in
// order, and opens it.
func atServer(ctx context.Context, address, kind string, o Options, prepare func(*server, *Book, []migration) error) (_ *Book, err error) {
	s, err := parseAddress(address, kind)
	if err != nil {
		return nil, err
	}
	all, err := readSets(o.Sets)
	if err != nil {
		return nil, err
	}
	s.steps = len(all)
	b := &Book{engine: s, options: o, now: o.clock(), writer: s.connect(1), reader: s.connect(readers)}
	defer func() {
		if err != nil {
			_ = b.Close() // the refusal says more than what closing might
		}
	}()
	if err := s.fit(ctx, b.writer); err != nil {
		return nil, s.explain(err)
	}
	if err := prepare(s, b, all); err != nil {
		return nil, s.explain(err)
	}
	return b, nil
}

// connect gives a pool of at most n connections. It opens none yet.
func (s *server) connect(n int) *sql.DB {
	db := stdlib.OpenDB(*s.config)
	db.SetMaxOpenConns(n)
	db.SetMaxIdleConns(n)
	return db
}

// fit refuses a server that is too old, and a database that does not keep
// every sign.
func (s *server) fit(ctx context.Context, db *sql.DB) error {
	var version int
	var shown, signs string
	err := db.QueryRowContext(ctx, `
		SELECT current_setting('server_version_num')::int, current_setting('server_version'), current_setting('server_encoding')`).
		Scan(&version, &shown, &signs)
	switch {
	case err != nil:
		return err
	case version < oldest:
		return oldServer(s.named, shown)
	case signs != "UTF8":
		return fewSigns(s.named, signs)
	}
	return nil
}

// peek reads which steps the book still lacks.
func (s *server) peek(ctx context.Context, db *sql.DB, all []migration) ([]migration, error) {
	there, err := s.holds(ctx, db)
	if err != nil {
		return nil, err
	}
	if !there {
		return nil, noBook(s.named)
	}
	done, err := applied(ctx, db)
	if err != nil {
		return nil, err
	}
	return lacking(s.named, done, all)
}

// holds reports whether the database holds a book.
func (s *server) holds(ctx context.Context, q querier) (there bool, err error) {
	err = q.QueryRowContext(ctx, `SELECT to_regclass('book_migration') IS NOT NULL`).Scan(&there)
	return there, err
}

// build makes the book's tables, all or none, in a database that holds
// nothing else.
func (s *server) build(ctx context.Context, db *sql.DB, now time.Time, all []migration, settle func(*Tx) error) error {
	return s.asOwner(ctx, db, func(tx *sql.Tx) error {
		switch there, err := s.holds(ctx, tx); {
		case err != nil:
			return err
		case there:
			return bookThere(s.named)
		}
		switch others, err := s.tables(ctx, tx); {
		case err != nil:
			return err
		case len(others) > 0:
			return notEmpty(s.named, others[0])
		}
		bare, err := s.words().expand(ground)
		if err != nil {
			return err
		}
		if _, err := tx.ExecContext(ctx, bare); err != nil {
			return err
		}
		return climb(ctx, tx, s, now, all, settle)
	})
}

// bringUpToDate applies the steps the book still lacks, unless another desk
// does so first.
func (s *server) bringUpToDate(ctx context.Context, db *sql.DB, now time.Time, all []migration, settle func(*Tx) error) error {
	pending, err := s.peek(ctx, db, all)
	if err != nil || len(pending) == 0 {
		return err
	}
	err = s.asOwner(ctx, db, func(tx *sql.Tx) error {
		done, err := applied(ctx, tx)
		if err != nil {
			return err
		}
		if pending, err = lacking(s.named, done, all); err != nil {
			return err
		}
		return climb(ctx, tx, s, now, pending, settle)
	})
	if code(err) == noRight {
		return oldForDesk(s.named).Because(err)
	}
	return err
}

// grants lets the roles of roles.sql use what was made.
//
//go:embed grants.sql
var grants string

// Roles is the SQL that makes the roles of a book on a server and its
// database, for the server's keeper.
//
//go:embed roles.sql
var Roles string

// asOwner does work on the tables in one transaction, alone. What is made
// belongs to the owner of the database, whoever of its members makes it.
func (s *server) asOwner(ctx context.Context, db *sql.DB, do func(*sql.Tx) error) error {
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	if _, err := tx.ExecContext(ctx, `SELECT pg_advisory_xact_lock($1)`, bookLock); err != nil {
		return err
	}
	if _, err := tx.ExecContext(ctx, `
		SELECT set_config('role', pg_get_userbyid(datdba), true) FROM pg_database
		WHERE datname = current_database() AND pg_has_role(datdba, 'MEMBER')`); err != nil {
		return err
	}
	if err := do(tx); err != nil {
		return err
	}
	if _, err := tx.ExecContext(ctx, grants); err != nil {
		return err
	}
	return s.unsure(tx.Commit())
}

// parseAddress reads postgres://user@host:port/database?setting=value. The
// password may come from there, from the variable PGPASSWORD or from the
// user's file of passwords. What is wrong in it is told without repeating it,
// for it may hold a secret.
func parseAddress(address, kind string) (*server, error) {
	config, err := pgx.ParseConfig(withDefaults(address, kind))
	if err != nil {
		return nil, badAddress()
	}
	alive := net.KeepAliveConfig{Enable: true, Idle: 5 * time.Second, Interval: 2 * time.Second, Count: 3}
	config.DialFunc = (&net.Dialer{Timeout: reach, KeepAliveConfig: alive}).DialContext
	if config.ConnectTimeout == 0 {
		config.ConnectTimeout = reach
	}
	for setting, value := range map[string]string{
		"application_name": "lungwort",
		"lock_timeout":     "10s", // how long an act waits for its turn
		// A desk that fell silent within an act must not keep the others waiting.
		"idle_in_transaction_session_timeout": "60s",
		"tcp_keepalives_idle":                 "5", "tcp_keepalives_interval": "2", "tcp_keepalives_count": "3",
	} {
		if _, set := config.RuntimeParams[setting]; !set {
			config.RuntimeParams[setting] = value
		}
	}
	return &server{config: config, named: nameOf(config), desk: rand.Text()}, nil
}

// The kinds of server that will do, as the connection names them: one to write
// to, or a stand-by as well.
const (
	toReadAndWrite = "read-write"
	toLook         = "any"
)

// withDefaults has the server prove who it is, and chooses among several hosts
// one of the kind, unless the address or the environment says otherwise.
func withDefaults(address, kind string) string {
	base, settings, _ := strings.Cut(address, "?")
	said := strings.FieldsFunc(settings, func(r rune) bool { return r == '&' })
	for _, d := range []struct{ name, value string }{{"sslmode", "verify-full"}, {"target_session_attrs", kind}} {
		set := func(setting string) bool { return strings.HasPrefix(setting, d.name+"=") }
		if !slices.ContainsFunc(said, set) && !setOutside(d.name) {
			said = append(said, d.name+"="+d.value)
		}
	}
	return base + "?" + strings.Join(said, "&")
}
