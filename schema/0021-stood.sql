-- Hours that put right hours of a closed period count from the first open day, and stand under the day of those whose place
-- they took, as far as those went (thousandths): as money does by posting.stands.
CREATE TABLE stood (
  entry INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  day   TEXT NOT NULL CHECK (day IS date(day, '+0 days')),
  own   INTEGER NOT NULL CHECK (own >= 0),
  paid  INTEGER NOT NULL CHECK (paid >= 0)
) STRICT;
CREATE UNIQUE INDEX stood_by_entry ON stood (entry);
CREATE TRIGGER stood_is_closed BEFORE INSERT ON stood
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER stood_keeps BEFORE UPDATE ON stood BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER stood_stays BEFORE DELETE ON stood BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
INSERT INTO sealed_from SELECT 'stood', coalesce(max(entry), 0) + 1 FROM entry;
