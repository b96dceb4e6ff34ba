-- Types and statements that SQLite and PostgreSQL share. Times are texts, as the database tells them.

-- A seal that the editor has opened at this desk. The puzzle's file says nothing of it.
CREATE TABLE openings (
    puzzle TEXT PRIMARY KEY,
    opened_at TEXT NOT NULL DEFAULT CURRENT_TIMESTAMP
);

-- A test solve; its id is chosen by the page, so that a beginning that was sent twice is one.
CREATE TABLE solves (
    id TEXT PRIMARY KEY,
    puzzle TEXT NOT NULL,
    fingerprint TEXT NOT NULL,
    solver TEXT NOT NULL,
    kind TEXT NOT NULL,
    begun_at TEXT NOT NULL DEFAULT CURRENT_TIMESTAMP
);

-- What happened in a test solve; the same for the id of an event.
CREATE TABLE events (
    solve TEXT NOT NULL REFERENCES solves (id),
    id TEXT NOT NULL,
    after_ms BIGINT NOT NULL,
    what TEXT NOT NULL,
    cell BIGINT,
    value BIGINT,
    PRIMARY KEY (solve, id)
);
CREATE INDEX events_in_time ON events (solve, after_ms);

-- What a file was before the desk changed it, and what it became.
CREATE TABLE changes (
    id TEXT PRIMARY KEY,
    file TEXT NOT NULL,
    digest_before TEXT,
    text_before TEXT,
    digest_after TEXT NOT NULL,
    text_after TEXT NOT NULL,
    changed_at TEXT NOT NULL DEFAULT CURRENT_TIMESTAMP,
    place BIGINT NOT NULL
);
CREATE INDEX changes_of_file ON changes (file, place);
