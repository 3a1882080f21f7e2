package book

import (
	"context"
	"errors"
	"os"
)

// Abandon closes a book that Create made just now and takes it away again: for
// whoever could not finish what was to be in it. A book that was there before
// is only closed.
func (b *Book) Abandon() error {
	if !b.made {
		return b.Close()
	}
	return b.engine.abandon(b)
}

func (f inFile) abandon(b *Book) error {
	return errors.Join(b.Close(), os.Remove(string(f)))
}

func (s *server) abandon(b *Book) error {
	_, err := b.writer.ExecContext(context.Background(), `
		DO $$
		DECLARE made record;
		BEGIN
		    FOR made IN SELECT oid::regclass AS name, relname FROM pg_class WHERE relkind = 'r' AND relnamespace = current_schema()::regnamespace
		    LOOP
		        EXECUTE format('DROP TABLE %s CASCADE', made.name);
		        EXECUTE format('DROP FUNCTION IF EXISTS %I()', made.relname || '_append_only');
		    END LOOP;
		END $$`)
	return errors.Join(s.explain(err), b.Close())
}
