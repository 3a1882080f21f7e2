package book

import (
	"context"
	"database/sql"
	"sync"
)

// compiled is the statements of a pool that transactions run again and again,
// by their text. A transaction holds its connection, so that what it asks for
// first is compiled for it alone, and for all before the next one begins.
type compiled struct {
	mu     sync.Mutex
	kept   map[string]*sql.Stmt
	wanted []string
}

// mostCompiled is how many statements are kept: more than the program has, save
// those whose text grows with a list.
const mostCompiled = 500

// prepare compiles what the transactions before asked for. A statement that
// can't be compiled now goes on being compiled where it is used.
func (c *compiled) prepare(ctx context.Context, db *sql.DB) {
	c.mu.Lock()
	wanted := c.wanted
	c.wanted = nil
	c.mu.Unlock() // whoever has the connection may ask meanwhile
	for _, query := range wanted {
		if s, err := db.PrepareContext(ctx, query); err == nil {
			c.keep(query, s)
		}
	}
}

func (c *compiled) keep(query string, s *sql.Stmt) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.kept == nil {
		c.kept = make(map[string]*sql.Stmt)
	}
	if _, twice := c.kept[query]; twice {
		_ = s.Close() // compiled by two at once
		return
	}
	c.kept[query] = s
}

// find returns a statement that is kept, or nil.
func (c *compiled) find(query string) *sql.Stmt {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.kept[query]
}

// want asks that a statement be kept from the next transaction on.
func (c *compiled) want(query string) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if len(c.kept)+len(c.wanted) < mostCompiled {
		c.wanted = append(c.wanted, query)
	}
}

// statement is one statement to run, compiled or not.
type statement interface {
	ExecContext(ctx context.Context, args ...any) (sql.Result, error)
	QueryContext(ctx context.Context, args ...any) (*sql.Rows, error)
	QueryRowContext(ctx context.Context, args ...any) *sql.Row
}

// text is a statement the driver compiles by itself.
type text struct {
	tx    *sql.Tx
	query string
}

func (s text) ExecContext(ctx context.Context, args ...any) (sql.Result, error) {
	return s.tx.ExecContext(ctx, s.query, args...)
}

func (s text) QueryContext(ctx context.Context, args ...any) (*sql.Rows, error) {
	return s.tx.QueryContext(ctx, s.query, args...)
}

func (s text) QueryRowContext(ctx context.Context, args ...any) *sql.Row {
	return s.tx.QueryRowContext(ctx, s.query, args...)
}

// statement returns a statement, compiled at most once in this transaction.
func (t *Tx) statement(query string, args []any) (statement, error) {
	if err := bindable(args); err != nil {
		return nil, err
	}
	if t.here == nil {
		return text{t.sql, query}, nil
	}
	if s, ok := t.here[query]; ok {
		return s, nil
	}
	s, err := t.compile(query)
	if err != nil {
		return nil, err
	}
	t.here[query] = s
	return s, nil
}

func (t *Tx) compile(query string) (*sql.Stmt, error) {
	if t.kept == nil {
		return t.sql.PrepareContext(t.ctx, query)
	}
	if s := t.kept.find(query); s != nil {
		return t.sql.StmtContext(t.ctx, s), nil
	}
	s, err := t.sql.PrepareContext(t.ctx, query)
	if err == nil {
		t.kept.want(query)
	}
	return s, err
}
