-- Who and where, as far as it was said: whom a car was bought from and sold to, what its odometer stood at then, who was paid
-- for hours, where a trip went from and to. Never needed for a figure; what the papers of a sale and of a trip ask for.
CREATE TABLE named (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  vehicle  TEXT NOT NULL REFERENCES vehicle,
  fact     TEXT NOT NULL CHECK (fact IN ('seller', 'buyer', 'odometer', 'helper', 'from', 'to')),
  value    TEXT NOT NULL CHECK (value <> '')
) STRICT;
CREATE INDEX named_by_vehicle ON named (vehicle, entry);
CREATE INDEX named_by_entry ON named (entry);
CREATE TRIGGER named_is_closed BEFORE INSERT ON named
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER named_keeps BEFORE UPDATE ON named BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER named_stays BEFORE DELETE ON named BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
