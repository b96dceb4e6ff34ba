-- Events stand in the order in which they came: what is undone and what changes by it may fall into one millisecond.
ALTER TABLE events ADD COLUMN place BIGINT NOT NULL DEFAULT 0;
UPDATE events SET place = (
    SELECT COUNT(*) FROM events AS e WHERE e.solve = events.solve
        AND (e.after_ms < events.after_ms OR (e.after_ms = events.after_ms AND e.id <= events.id))
);
DROP INDEX events_in_time;
CREATE INDEX events_in_order ON events (solve, place);
