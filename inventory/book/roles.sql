-- A database for one book, and the roles of those who use it. To be run once
-- by somebody who may make roles and databases; no superuser is needed:
--
--     lungwort roles | psql postgres
--
-- The owner's tables are made by "New programme" in the window, or by
-- "lungwort copy", done by a member of lungwort_owner. Members of it also bring
-- the book up to date for a new version of the program.

CREATE ROLE lungwort_owner NOLOGIN; -- makes the tables; nobody works as this role day by day
CREATE ROLE lungwort_desk NOLOGIN;  -- reads and adds; can never change or remove a fact
CREATE ROLE lungwort_look NOLOGIN;  -- reads only: audit, exports

GRANT lungwort_owner TO CURRENT_USER;
CREATE DATABASE lungwort OWNER lungwort_owner ENCODING 'UTF8' TEMPLATE template0;
REVOKE ALL ON DATABASE lungwort FROM PUBLIC;
GRANT CONNECT ON DATABASE lungwort TO lungwort_owner, lungwort_desk, lungwort_look;

-- Then one line for each person, with \password to set the password:
--
--     CREATE ROLE ines LOGIN IN ROLE lungwort_desk;
--     \password ines
