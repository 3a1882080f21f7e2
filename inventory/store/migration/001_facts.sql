-- Facts are written once. Everything else in this file is derived from them
-- and can be rebuilt.
CREATE TABLE fact (
    id              {{ID}},
    says            {{TEXT}} NOT NULL,
    happened        {{INT}}  NOT NULL,
    happened_offset {{INT}}  NOT NULL,
    recorded        {{INT}}  NOT NULL,
    by_whom         {{TEXT}} NOT NULL,
    source          {{TEXT}} NOT NULL,
    corrects        {{INT}}  REFERENCES fact (id),
    item_id         {{TEXT}},
    person_id       {{TEXT}},
    run_id          {{TEXT}},
    body            {{TEXT}} NOT NULL
){{STRICT}};

{{APPEND_ONLY fact}}

CREATE INDEX fact_item   ON fact (item_id)   WHERE item_id   IS NOT NULL;
CREATE INDEX fact_person ON fact (person_id) WHERE person_id IS NOT NULL;
CREATE INDEX fact_run    ON fact (run_id)    WHERE run_id    IS NOT NULL;
-- What is about the whole programme: settings, power cuts.
CREATE INDEX fact_says   ON fact (says, id)  WHERE item_id IS NULL AND person_id IS NULL AND run_id IS NULL;

CREATE TABLE counter (
    name {{TEXT}} PRIMARY KEY,
    last {{INT}}  NOT NULL
){{STRICT}};

CREATE TABLE item_now (
    item_id    {{TEXT}} PRIMARY KEY,
    tag        {{INT}}  NOT NULL,
    serial_key {{TEXT}} NOT NULL,
    near_key   {{TEXT}} NOT NULL,
    kind       {{TEXT}} NOT NULL,
    size       {{TEXT}} NOT NULL,
    owner      {{TEXT}} NOT NULL,
    state      {{TEXT}} NOT NULL,
    place      {{TEXT}} NOT NULL,
    person_id  {{TEXT}} NOT NULL,
    folded     {{TEXT}} NOT NULL,
    body       {{TEXT}} NOT NULL
){{STRICT}};

CREATE INDEX item_now_tag    ON item_now (tag);
CREATE INDEX item_now_serial ON item_now (serial_key);
CREATE INDEX item_now_near   ON item_now (near_key);
CREATE INDEX item_now_state  ON item_now (state, kind, size);
CREATE INDEX item_now_person ON item_now (person_id) WHERE person_id <> '';
