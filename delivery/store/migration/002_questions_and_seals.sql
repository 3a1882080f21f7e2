-- How many questions about a person wait for an answer.
ALTER TABLE person_now ADD COLUMN asks {{INT}} NOT NULL DEFAULT 0;

CREATE INDEX person_now_asks ON person_now (asks) WHERE asks > 0;

-- What the digests of facts about a person are salted with. Erasing the person
-- takes it away; the seals stay.
ALTER TABLE identity ADD COLUMN salt {{TEXT}} NOT NULL DEFAULT '';

-- The seal of each fact: a hash over the digest of the fact and the seal of the
-- fact recorded before it about the same subject.
CREATE TABLE fact_seal (
    fact_id  {{ID}},
    recorded {{INT}}  NOT NULL,
    digest   {{BLOB}} NOT NULL,
    seal     {{BLOB}} NOT NULL
){{STRICT}};

{{APPEND_ONLY fact_seal}}
