-- A row of the ledger says what it is: what a figure needs of an event stands in columns, so that no event is read again
-- for one. Each row comes before its entry and is closed, sealed and kept with it; of entries of an older layout the rows
-- are read from their sealed events once, when the book is brought up to date, and `check` reads them again.

-- What an amount about a car was for, as a report names it: money that came in is positive. `line` is the receipt line that
-- it belongs to; `stands` the day under which it counts, where that is another than its entry's.
CREATE TABLE purpose (
  entry     INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  vehicle   TEXT NOT NULL REFERENCES vehicle,
  kind      TEXT NOT NULL CHECK (kind IN ('purchase', 'fee', 'part', 'consumable', 'sublet', 'paid hours', 'other cost',
    'recovered', 'selling cost', 'commission', 'deposit kept', 'sale', 'due back')),
  what      TEXT NOT NULL,
  line      INTEGER REFERENCES line,
  quantity  INTEGER,                         -- thousandths; negative: went back
  amount    INTEGER NOT NULL,
  stands    TEXT CHECK (stands IS date(stands, '+0 days'))
) STRICT;
CREATE INDEX purpose_by_entry ON purpose (entry);
CREATE INDEX purpose_by_vehicle ON purpose (vehicle, entry);
CREATE TRIGGER purpose_is_closed BEFORE INSERT ON purpose
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER purpose_keeps BEFORE UPDATE ON purpose BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER purpose_stays BEFORE DELETE ON purpose BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
INSERT INTO sealed_from SELECT 'purpose', coalesce(max(entry), 0) + 1 FROM entry;

-- A purchase: the price, and its fees together.
CREATE TABLE purchase (
  entry     INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  vehicle   TEXT NOT NULL REFERENCES vehicle,
  price     INTEGER NOT NULL CHECK (price >= 0),
  fees      INTEGER NOT NULL CHECK (fees >= 0)
) STRICT;
CREATE INDEX purchase_by_entry ON purchase (entry);
CREATE TRIGGER purchase_is_closed BEFORE INSERT ON purchase
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER purchase_keeps BEFORE UPDATE ON purchase BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER purchase_stays BEFORE DELETE ON purchase BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
INSERT INTO sealed_from SELECT 'purchase', coalesce(max(entry), 0) + 1 FROM entry;

-- A sale: its price, and the commission's share of it in billionths (0: agreed as an amount, or none).
CREATE TABLE sale (
  entry     INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  vehicle   TEXT NOT NULL REFERENCES vehicle,
  price     INTEGER NOT NULL CHECK (price >= 0),
  rate      INTEGER NOT NULL CHECK (rate >= 0 AND rate < 1000000000)
) STRICT;
CREATE INDEX sale_by_entry ON sale (entry);
CREATE TRIGGER sale_is_closed BEFORE INSERT ON sale
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER sale_keeps BEFORE UPDATE ON sale BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER sale_stays BEFORE DELETE ON sale BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
INSERT INTO sealed_from SELECT 'sale', coalesce(max(entry), 0) + 1 FROM entry;

-- A line's share of its paper's discount, where it has one (`extra` of the line is shipping less this).
CREATE TABLE discount (
  entry     INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  line      INTEGER NOT NULL REFERENCES line,
  amount    INTEGER NOT NULL
) STRICT;
CREATE INDEX discount_by_entry ON discount (entry);
CREATE INDEX discount_by_line ON discount (line);
CREATE TRIGGER discount_is_closed BEFORE INSERT ON discount
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER discount_keeps BEFORE UPDATE ON discount BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER discount_stays BEFORE DELETE ON discount BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
INSERT INTO sealed_from SELECT 'discount', coalesce(max(entry), 0) + 1 FROM entry;

-- A tool bought as an asset of the shop.
CREATE TABLE kept_tool (
  entry     INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  line      INTEGER NOT NULL REFERENCES line
) STRICT;
CREATE INDEX kept_tool_by_entry ON kept_tool (entry);
CREATE INDEX kept_tool_by_line ON kept_tool (line);
CREATE TRIGGER kept_tool_is_closed BEFORE INSERT ON kept_tool
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER kept_tool_keeps BEFORE UPDATE ON kept_tool BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER kept_tool_stays BEFORE DELETE ON kept_tool BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
INSERT INTO sealed_from SELECT 'kept_tool', coalesce(max(entry), 0) + 1 FROM entry;

-- What of a tool's line was charged to a car (negative: taken out of it again).
CREATE TABLE charged (
  entry     INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  line      INTEGER NOT NULL REFERENCES line,
  vehicle   TEXT NOT NULL REFERENCES vehicle,
  amount    INTEGER NOT NULL
) STRICT;
CREATE INDEX charged_by_entry ON charged (entry);
CREATE INDEX charged_by_line ON charged (line);
CREATE TRIGGER charged_is_closed BEFORE INSERT ON charged
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER charged_keeps BEFORE UPDATE ON charged BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER charged_stays BEFORE DELETE ON charged BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
INSERT INTO sealed_from SELECT 'charged', coalesce(max(entry), 0) + 1 FROM entry;

-- The day printed on a paper, or said of an event, where its entry bears another.
CREATE TABLE printed (
  entry     INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  day       TEXT NOT NULL CHECK (day IS date(day, '+0 days'))
) STRICT;
CREATE INDEX printed_by_entry ON printed (entry);
CREATE TRIGGER printed_is_closed BEFORE INSERT ON printed
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER printed_keeps BEFORE UPDATE ON printed BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER printed_stays BEFORE DELETE ON printed BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
INSERT INTO sealed_from SELECT 'printed', coalesce(max(entry), 0) + 1 FROM entry;

-- What was noted of a car, and the cause that it names ('': none).
CREATE TABLE noted (
  entry     INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  vehicle   TEXT NOT NULL REFERENCES vehicle,
  text      TEXT NOT NULL,
  cause     TEXT NOT NULL
) STRICT;
CREATE INDEX noted_by_entry ON noted (entry);
CREATE INDEX noted_by_vehicle ON noted (vehicle, entry);
CREATE TRIGGER noted_is_closed BEFORE INSERT ON noted
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER noted_keeps BEFORE UPDATE ON noted BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER noted_stays BEFORE DELETE ON noted BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
INSERT INTO sealed_from SELECT 'noted', coalesce(max(entry), 0) + 1 FROM entry;

-- Why a trip was made.
CREATE TABLE errand (
  entry     INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  why       TEXT NOT NULL
) STRICT;
CREATE INDEX errand_by_entry ON errand (entry);
CREATE TRIGGER errand_is_closed BEFORE INSERT ON errand
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER errand_keeps BEFORE UPDATE ON errand BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER errand_stays BEFORE DELETE ON errand BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
INSERT INTO sealed_from SELECT 'errand', coalesce(max(entry), 0) + 1 FROM entry;
