-- Who changed a file: the desk, or another program.
ALTER TABLE changes ADD COLUMN made_by TEXT NOT NULL DEFAULT 'desk';
