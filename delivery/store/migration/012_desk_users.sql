-- The hash of each passphrase, and the failed sign-ins since the last that
-- fitted. Who works in the book, as what and since when, the facts say; what
-- could be guessed at stands here, where it can be changed and removed.
CREATE TABLE desk_user (
    name      {{TEXT}} PRIMARY KEY,
    hash      {{TEXT}} NOT NULL,
    failed    {{INT}}  NOT NULL,
    failed_at {{INT}}  NOT NULL
){{STRICT}};
