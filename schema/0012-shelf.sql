-- The shelf by days: what came in, what went back, what was drawn and what was counted, so that the average can be reckoned
-- in the order of days. `about` is the day of what is moved (an `average` entry and a reversal bear days of their own);
-- `said` the pieces that a count found.
CREATE TABLE shelf (
  entry     INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  item      TEXT NOT NULL,
  what      TEXT NOT NULL CHECK (what IN ('in', 'back', 'draw', 'count')),
  about     TEXT NOT NULL CHECK (about IS date(about, '+0 days')),
  vehicle   TEXT REFERENCES vehicle,         -- of a draw
  line      INTEGER REFERENCES line,         -- of what goes back
  quantity  INTEGER NOT NULL,                -- thousandths of a piece
  amount    INTEGER NOT NULL,                -- minor units
  said      INTEGER
) STRICT;
CREATE INDEX shelf_by_entry ON shelf (entry);
CREATE INDEX shelf_by_item ON shelf (item, about);
CREATE TRIGGER shelf_is_closed BEFORE INSERT ON shelf
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER shelf_keeps BEFORE UPDATE ON shelf BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER shelf_stays BEFORE DELETE ON shelf BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
INSERT INTO sealed_from SELECT 'shelf', coalesce(max(entry), 0) + 1 FROM entry;
-- The end of a period is an entry: the last of them is found at once.
CREATE INDEX entry_that_closes ON entry (day) WHERE kind = 'close';
