-- What was answered about lists taken in. A question may name a person, so the
-- words are here, where they can be erased; the fact holds the id alone.
CREATE TABLE answer (
    id       {{TEXT}} PRIMARY KEY,
    list     {{TEXT}} NOT NULL,
    file     {{TEXT}} NOT NULL,
    question {{TEXT}} NOT NULL,
    asks     {{TEXT}} NOT NULL,
    answer   {{TEXT}} NOT NULL,
    folded   {{TEXT}} NOT NULL
){{STRICT}};
