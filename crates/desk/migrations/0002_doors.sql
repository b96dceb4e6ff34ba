-- Who may come in, who was invited, and what happened at the door. Whole seconds are those since 1970 began, for they are
-- reckoned with; times that are only told are texts.

-- An editor's account. The password is kept as a hash that is slow to guess at (a PHC string).
CREATE TABLE accounts (
    name TEXT PRIMARY KEY,
    password TEXT NOT NULL,
    made_at TEXT NOT NULL DEFAULT CURRENT_TIMESTAMP
);

-- An invitation of one person; of its token only the hash is kept.
CREATE TABLE invitations (
    id TEXT PRIMARY KEY,
    token TEXT NOT NULL UNIQUE,
    role TEXT NOT NULL,
    person TEXT NOT NULL,
    made_by TEXT NOT NULL,
    made_at BIGINT NOT NULL,
    ends_at BIGINT NOT NULL,
    used_at BIGINT,
    revoked_at BIGINT
);

-- The puzzles that an invited tester is to solve.
CREATE TABLE assigned (
    invitation TEXT NOT NULL REFERENCES invitations (id),
    puzzle TEXT NOT NULL,
    PRIMARY KEY (invitation, puzzle)
);

-- The test solves of invited testers; all others are the editors' own.
CREATE TABLE invited_solves (
    solve TEXT PRIMARY KEY REFERENCES solves (id),
    invitation TEXT NOT NULL REFERENCES invitations (id)
);
CREATE INDEX invited_solves_of ON invited_solves (invitation);

-- Somebody who is in, by an account or an invitation; of the token only the hash is kept.
CREATE TABLE sessions (
    token TEXT PRIMARY KEY,
    account TEXT REFERENCES accounts (name),
    invitation TEXT REFERENCES invitations (id),
    begun_at BIGINT NOT NULL,
    seen_at BIGINT NOT NULL,
    ends_at BIGINT NOT NULL
);

-- What happened at the door.
CREATE TABLE door_notes (
    place BIGINT PRIMARY KEY,
    noted_at TEXT NOT NULL DEFAULT CURRENT_TIMESTAMP,
    what TEXT NOT NULL,
    who TEXT NOT NULL,
    address TEXT NOT NULL,
    about TEXT NOT NULL
);
CREATE INDEX door_notes_of ON door_notes (what, place);
