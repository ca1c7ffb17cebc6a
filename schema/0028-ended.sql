-- Under which day a car ended for its money, where that is not the day from which its sale or write-off counts: one of a
-- closed period that was put right counts from the first open day and ends the car under the old one, so that what came between
-- stays late. Entries of before say it by a row of `stood` without hours, or, of a version before that, not at all: both kinds
-- have a row here from when the book is brought up to date, the others worked out from what is recorded. No seal covers these,
-- and `check` works them out again.
CREATE TABLE ended (
  entry INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  day   TEXT NOT NULL CHECK (day IS date(day, '+0 days'))
) STRICT;
CREATE UNIQUE INDEX ended_by_entry ON ended (entry);
INSERT INTO ended SELECT s.entry, s.day FROM stood s
  WHERE s.own = 0 AND s.paid = 0 AND s.entry IN (SELECT l.entry FROM life l WHERE l.turn IN ('sold', 'finished'));
CREATE TRIGGER ended_is_closed BEFORE INSERT ON ended
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER ended_keeps BEFORE UPDATE ON ended BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER ended_stays BEFORE DELETE ON ended BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
INSERT INTO sealed_from SELECT 'ended', coalesce(max(entry), 0) + 1 FROM entry;
