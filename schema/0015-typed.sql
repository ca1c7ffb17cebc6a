-- What was typed, by whom and when, so that the last of it can be taken back whole: the entries of one command. It
-- lies on the desk: no entry rests on it, and an export leaves it out.
CREATE TABLE typed (
  typed  INTEGER PRIMARY KEY,
  first  INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  last   INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  who    TEXT NOT NULL,                                       -- a login
  at     TEXT NOT NULL,                                       -- ISO 8601, UTC
  undone INTEGER NOT NULL DEFAULT 0 CHECK (undone IN (0, 1)),
  CHECK (first <= last)
) STRICT;
CREATE INDEX typed_by_who ON typed (who, undone, typed);
