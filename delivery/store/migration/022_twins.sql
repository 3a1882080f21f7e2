-- By what two records of one person are found: the family name and the record
-- number as they are compared. Both are empty for an address, and for somebody
-- who was erased.
ALTER TABLE identity ADD COLUMN name_key {{TEXT}} NOT NULL DEFAULT '';
ALTER TABLE identity ADD COLUMN record_key {{TEXT}} NOT NULL DEFAULT '';
CREATE INDEX identity_name_key ON identity (name_key) WHERE name_key <> '';
CREATE INDEX identity_record_key ON identity (record_key) WHERE record_key <> '';
