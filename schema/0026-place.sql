-- Whose place an entry takes, and how: what puts another one right (`corrects`), the full paper that a quick line was waiting
-- for (`replaces`), a reversal that only makes way for what puts right (`makes way`), or one of a quick line beside the one that
-- a paper names (`gives place`). Its event says the same: here it can be asked for without reading one. Rows of entries of before
-- are filled from their sealed events when the book is brought up to date; their seals do not cover them, and `check` reads those
-- events again.
CREATE TABLE place (
  entry INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  takes INTEGER NOT NULL REFERENCES entry,                -- the entry whose place it is
  how   TEXT NOT NULL CHECK (how IN ('corrects', 'replaces', 'makes way', 'gives place')),
  CHECK (takes < entry)
) STRICT;
CREATE UNIQUE INDEX place_by_entry ON place (entry, how);
CREATE INDEX place_by_taken ON place (takes);
CREATE TRIGGER place_is_closed BEFORE INSERT ON place
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER place_keeps BEFORE UPDATE ON place BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER place_stays BEFORE DELETE ON place BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
INSERT INTO sealed_from SELECT 'place', coalesce(max(entry), 0) + 1 FROM entry;

-- A line that was kept without a word: its name is to come.
CREATE TABLE unnamed (
  entry INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  line  INTEGER NOT NULL REFERENCES line
) STRICT;
CREATE INDEX unnamed_by_entry ON unnamed (entry);
CREATE UNIQUE INDEX unnamed_by_line ON unnamed (line);
CREATE TRIGGER unnamed_is_closed BEFORE INSERT ON unnamed
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER unnamed_keeps BEFORE UPDATE ON unnamed BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER unnamed_stays BEFORE DELETE ON unnamed BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
INSERT INTO sealed_from SELECT 'unnamed', coalesce(max(entry), 0) + 1 FROM entry;

-- Entries of the layout before days, read by days as 0010-days.sql has it: which paper took a quick line's place is asked here
-- of the rows above, no longer of the words of its event.
DROP VIEW counted;
CREATE VIEW counted AS
  SELECT p.entry, p.seq, p.account, e.day, coalesce(p.stands, e.day) AS stands, p.amount, coalesce(p.quantity, 0) AS quantity
  FROM posting p JOIN entry e USING (entry)
  WHERE coalesce(e.voids, e.entry) >= (SELECT s.entry FROM sealed_from s WHERE s.what = 'days')
  UNION ALL
  SELECT p.entry, p.seq,
    coalesce((SELECT n.account FROM account n WHERE n.name = a.name AND n.kind = CASE a.kind
      WHEN 'late cost' THEN 'vehicle cost' WHEN 'looking' THEN 'vehicle cost' WHEN 'recovered income' THEN 'recovered' END),
      p.account),
    -- A quick line that its full paper replaced counts until that came.
    CASE WHEN e.kind = 'void' THEN coalesce((SELECT max(e.day, r.day) FROM entry r JOIN place l ON l.entry = r.entry
      WHERE r.entry = e.entry + 1 AND r.kind = 'receipt' AND l.how = 'replaces' AND l.takes = e.voids), e.day) ELSE e.day END,
    -- A full paper stood for its quick line as far as that went; only what was late cost of a sold car stands under its own day.
    coalesce(p.stands, (SELECT o.day FROM entry o WHERE o.entry = e.voids), CASE WHEN e.kind = 'receipt' AND a.kind = 'vehicle cost'
      THEN (SELECT min(o.day, e.day) FROM entry v JOIN entry o ON o.entry = v.voids JOIN place l ON l.takes = v.voids
            WHERE v.entry = e.entry - 1 AND l.entry = e.entry AND l.how = 'replaces') END, e.day),
    p.amount, coalesce(p.quantity, 0)
  FROM posting p JOIN entry e USING (entry) JOIN account a USING (account)
  WHERE coalesce(e.voids, e.entry) < (SELECT s.entry FROM sealed_from s WHERE s.what = 'days')
    AND NOT (a.kind IN ('vehicle cost', 'recovered', 'late cost', 'looking', 'cost of sale', 'written off')
      AND (SELECT o.kind FROM entry o WHERE o.entry = coalesce(e.voids, e.entry)) IN ('sell', 'write off', 'pass'));
