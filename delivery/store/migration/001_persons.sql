-- The one erasable table: who a person is and where a home is. Facts hold the
-- id alone.
CREATE TABLE identity (
    id     {{TEXT}} PRIMARY KEY,
    sort   {{TEXT}} NOT NULL CHECK (sort IN ('person', 'address')),
    record {{TEXT}} NOT NULL,
    folded {{TEXT}} NOT NULL,
    body   {{TEXT}} NOT NULL
){{STRICT}};

CREATE INDEX identity_record ON identity (record) WHERE record <> '';

CREATE TABLE person_now (
    person_id  {{TEXT}} PRIMARY KEY REFERENCES identity (id),
    phase      {{TEXT}} NOT NULL,
    watched    {{INT}}  NOT NULL CHECK (watched IN (0, 1)),
    address_id {{TEXT}} NOT NULL,
    tasks      {{INT}}  NOT NULL,
    body       {{TEXT}} NOT NULL
){{STRICT}};

CREATE INDEX person_now_watched ON person_now (watched);
CREATE INDEX person_now_address ON person_now (address_id);
CREATE INDEX person_now_tasks   ON person_now (tasks) WHERE tasks > 0;

CREATE TABLE run_now (
    run_id  {{TEXT}} PRIMARY KEY,
    day     {{TEXT}} NOT NULL,
    vehicle {{TEXT}} NOT NULL,
    ended   {{INT}}  NOT NULL CHECK (ended IN (0, 1)),
    body    {{TEXT}} NOT NULL
){{STRICT}};

CREATE INDEX run_now_day ON run_now (day, vehicle);
