-- What an entry says of its car's budget, beside what it moves: under which line of the budget its money or hours stand ('for';
-- an empty name: under none), that a line is done, not needed or open again, that more is to come under it, or that the car
-- is ready (no name). `line`: of a receipt; absent: the whole entry. A line of the budget is known by its name.
CREATE TABLE mark (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  vehicle  TEXT NOT NULL REFERENCES vehicle,
  line     INTEGER,
  says     TEXT NOT NULL CHECK (says IN ('for', 'done', 'not needed', 'open', 'more', 'ready')),
  name     TEXT NOT NULL
) STRICT;
CREATE INDEX mark_by_vehicle ON mark (vehicle, entry);
CREATE INDEX mark_by_entry ON mark (entry);
CREATE TRIGGER mark_is_closed BEFORE INSERT ON mark
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER mark_keeps BEFORE UPDATE ON mark BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER mark_stays BEFORE DELETE ON mark BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;

-- What was found on a car, as the appraisal calls it: a test's outcome (value), the cause, a cause ruled out, a trouble that is
-- there or not (value), a correction that was made and failed or cured, a name that is now another (value).
CREATE TABLE found (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  vehicle  TEXT NOT NULL REFERENCES vehicle,
  what     TEXT NOT NULL CHECK (what IN ('seen', 'cause', 'ruled out', 'trouble', 'failed', 'cured', 'not there', 'same')),
  name     TEXT NOT NULL CHECK (name <> ''),
  value    TEXT NOT NULL
) STRICT;
CREATE INDEX found_by_vehicle ON found (vehicle, entry);
CREATE INDEX found_by_entry ON found (entry);
CREATE TRIGGER found_is_closed BEFORE INSERT ON found
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER found_keeps BEFORE UPDATE ON found BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER found_stays BEFORE DELETE ON found BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;

-- A line of the budget that the owner planned by hand: what it will cost in all, how many pieces, how many own hours
-- (thousandths).
CREATE TABLE planned (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  vehicle  TEXT NOT NULL REFERENCES vehicle,
  name     TEXT NOT NULL CHECK (name <> ''),
  amount   INTEGER NOT NULL CHECK (amount >= 0),
  quantity INTEGER NOT NULL CHECK (quantity > 0),
  hours    INTEGER NOT NULL CHECK (hours >= 0)
) STRICT;
CREATE INDEX planned_by_vehicle ON planned (vehicle, entry);
CREATE INDEX planned_by_entry ON planned (entry);
CREATE TRIGGER planned_is_closed BEFORE INSERT ON planned
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER planned_keeps BEFORE UPDATE ON planned BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER planned_stays BEFORE DELETE ON planned BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
