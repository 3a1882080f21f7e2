-- What was made is opened to the roles of the book, where the server has them:
-- a desk may add and read; it may change only what is worked out from the
-- facts, and never the facts themselves.
DO $$
DECLARE
    made record;
    has_desk boolean := to_regrole('lungwort_desk') IS NOT NULL;
    has_look boolean := to_regrole('lungwort_look') IS NOT NULL;
BEGIN
    FOR made IN
        SELECT
            pg_class.oid::regclass AS name,
            relname <> 'book_migration' AS grows,
            relname <> 'book_migration' AND NOT EXISTS (
                SELECT FROM pg_trigger WHERE tgrelid = pg_class.oid AND tgname = relname || '_never_changes'
            ) AS changes
        FROM pg_class
        WHERE relkind = 'r' AND relnamespace = current_schema()::regnamespace
    LOOP
        IF has_desk THEN
            EXECUTE format('GRANT SELECT ON %s TO lungwort_desk', made.name);
            IF made.grows THEN
                EXECUTE format('GRANT INSERT ON %s TO lungwort_desk', made.name);
            END IF;
            IF made.changes THEN
                EXECUTE format('GRANT UPDATE, DELETE ON %s TO lungwort_desk', made.name);
            END IF;
        END IF;
        IF has_look THEN
            EXECUTE format('GRANT SELECT ON %s TO lungwort_look', made.name);
        END IF;
    END LOOP;
END $$;
