-- What an entry says beside its postings. Each row comes before its entry and is closed, hashed and kept with it.

-- What a receipt lists. `line` is the book's number, `id` the user's name for it (unique among lines that were not voided).
-- Money in minor units; quantities in thousandths. `extra` is its share of shipping less discount, `core` the whole deposit,
-- `core_tax` what of the tax lies on the deposit and comes back with it.
CREATE TABLE line (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  line     INTEGER PRIMARY KEY,
  id       TEXT NOT NULL CHECK (id <> ''),
  what     TEXT NOT NULL,
  quantity INTEGER NOT NULL CHECK (quantity > 0),
  amount   INTEGER NOT NULL,
  kind     TEXT NOT NULL CHECK (kind IN ('part', 'consumable', 'sublet', 'fee', 'stock', 'tool', 'overhead', 'private', 'core back')),
  source   TEXT CHECK (source IN ('new', 'salvage', 'reman')),
  taxed    INTEGER NOT NULL CHECK (taxed IN (0, 1)),
  tax      INTEGER NOT NULL,
  extra    INTEGER NOT NULL,
  core     INTEGER NOT NULL CHECK (core >= 0),
  core_tax INTEGER NOT NULL,
  core_by  TEXT CHECK (core_by IS NULL OR core_by IS date(core_by, '+0 days')),
  stock    TEXT,
  gives    INTEGER CHECK (gives > 0),
  supplier TEXT NOT NULL
) STRICT;
CREATE INDEX line_by_id ON line (id);
CREATE INDEX line_by_entry ON line (entry);
CREATE INDEX line_with_core ON line (line) WHERE core > 0;
CREATE TRIGGER line_is_closed BEFORE INSERT ON line
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER line_keeps BEFORE UPDATE ON line BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER line_stays BEFORE DELETE ON line BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;

-- Which cars a line is for, by weight.
CREATE TABLE share (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  line     INTEGER NOT NULL REFERENCES line,
  vehicle  TEXT NOT NULL REFERENCES vehicle,
  weight   INTEGER NOT NULL CHECK (weight > 0)
) STRICT;
CREATE TRIGGER share_is_of_its_entry BEFORE INSERT ON share
WHEN NOT EXISTS (SELECT 1 FROM line WHERE line.line = NEW.line AND line.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'a share belongs to a line of its own entry'); END;
CREATE INDEX share_by_line ON share (line);
CREATE INDEX share_by_vehicle ON share (vehicle);
CREATE INDEX share_by_entry ON share (entry);
CREATE TRIGGER share_is_closed BEFORE INSERT ON share
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER share_keeps BEFORE UPDATE ON share BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER share_stays BEFORE DELETE ON share BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;

-- Goods or a core going back against a line, or goods of it put on the shelf (at the cost `goods`). `kept` is a restocking
-- fee, or what is short of the deposit.
CREATE TABLE given_back (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  line     INTEGER NOT NULL REFERENCES line,
  what     TEXT NOT NULL CHECK (what IN ('goods', 'core', 'shelf')),
  quantity INTEGER NOT NULL CHECK (quantity > 0),
  goods    INTEGER NOT NULL CHECK (goods >= 0),
  tax      INTEGER NOT NULL CHECK (tax >= 0),
  kept     INTEGER NOT NULL CHECK (kept >= 0)
) STRICT;
CREATE INDEX given_back_by_line ON given_back (line);
CREATE INDEX given_back_by_entry ON given_back (entry);
CREATE TRIGGER given_back_is_closed BEFORE INSERT ON given_back
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER given_back_keeps BEFORE UPDATE ON given_back BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER given_back_stays BEFORE DELETE ON given_back BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;

-- The receipt as a whole: who gave it, its number, its printed total. `itemised` is 0 for a quick line that waits for the
-- full paper; `on_paper` is 0 where there was none.
CREATE TABLE paper (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  supplier TEXT NOT NULL,
  number   TEXT NOT NULL,
  total    INTEGER NOT NULL,
  itemised INTEGER NOT NULL CHECK (itemised IN (0, 1)),
  on_paper INTEGER NOT NULL CHECK (on_paper IN (0, 1)),
  back_by  TEXT CHECK (back_by IS NULL OR back_by IS date(back_by, '+0 days'))
) STRICT;
CREATE INDEX paper_by_number ON paper (supplier, number);
CREATE INDEX paper_by_total ON paper (supplier, total);
CREATE INDEX paper_by_entry ON paper (entry);
CREATE INDEX paper_waiting ON paper (itemised) WHERE itemised = 0;
CREATE TRIGGER paper_is_closed BEFORE INSERT ON paper
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER paper_keeps BEFORE UPDATE ON paper BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER paper_stays BEFORE DELETE ON paper BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;

-- Hours worked, in thousandths. Own hours move no money; paid hours do, at `rate` (thousandths of a minor unit an hour).
CREATE TABLE labour (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  vehicle   TEXT NOT NULL REFERENCES vehicle,
  operation TEXT NOT NULL,
  own       INTEGER NOT NULL CHECK (own >= 0),
  paid      INTEGER NOT NULL CHECK (paid >= 0),
  rate      INTEGER NOT NULL CHECK (rate >= 0)
) STRICT;
CREATE INDEX labour_by_vehicle ON labour (vehicle, entry);
CREATE INDEX labour_by_entry ON labour (entry);
CREATE TRIGGER labour_is_closed BEFORE INSERT ON labour
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER labour_keeps BEFORE UPDATE ON labour BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER labour_stays BEFORE DELETE ON labour BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;

-- Distance driven for a car, in thousandths of the book's unit.
CREATE TABLE trip (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  vehicle  TEXT NOT NULL REFERENCES vehicle,
  distance INTEGER NOT NULL CHECK (distance > 0)
) STRICT;
CREATE INDEX trip_by_vehicle ON trip (vehicle, entry);
CREATE INDEX trip_by_entry ON trip (entry);
CREATE TRIGGER trip_is_closed BEFORE INSERT ON trip
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER trip_keeps BEFORE UPDATE ON trip BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER trip_stays BEFORE DELETE ON trip BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;

-- The price that a car stands in the advert at, from that day.
CREATE TABLE advert (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  vehicle TEXT NOT NULL REFERENCES vehicle,
  price   INTEGER NOT NULL CHECK (price > 0)
) STRICT;
CREATE INDEX advert_by_vehicle ON advert (vehicle, entry);
CREATE INDEX advert_by_entry ON advert (entry);
CREATE TRIGGER advert_is_closed BEFORE INSERT ON advert
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER advert_keeps BEFORE UPDATE ON advert BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER advert_stays BEFORE DELETE ON advert BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;

-- The last day on which a borrowed tool, or a held car, has to be settled.
CREATE TABLE deposit_by (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  account TEXT NOT NULL,
  supplier TEXT NOT NULL,
  by_day  TEXT CHECK (by_day IS NULL OR by_day IS date(by_day, '+0 days'))
) STRICT;
CREATE INDEX deposit_by_account ON deposit_by (account);
CREATE INDEX deposit_by_entry ON deposit_by (entry);
CREATE TRIGGER deposit_by_is_closed BEFORE INSERT ON deposit_by
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER deposit_by_keeps BEFORE UPDATE ON deposit_by BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER deposit_by_stays BEFORE DELETE ON deposit_by BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;

-- A photograph or a scan, copied beside the book under its SHA-256.
CREATE TABLE attachment (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  vehicle TEXT NOT NULL REFERENCES vehicle,
  sha256  TEXT NOT NULL CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),
  name    TEXT NOT NULL,
  size    INTEGER NOT NULL CHECK (size >= 0)
) STRICT;
CREATE INDEX attachment_by_vehicle ON attachment (vehicle);
CREATE INDEX attachment_by_entry ON attachment (entry);
CREATE TRIGGER attachment_is_closed BEFORE INSERT ON attachment
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER attachment_keeps BEFORE UPDATE ON attachment BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER attachment_stays BEFORE DELETE ON attachment BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;

-- Which cars an entry is about: the way from a car to its entries.
CREATE TABLE mention (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  vehicle TEXT NOT NULL REFERENCES vehicle
) STRICT;
CREATE INDEX mention_by_vehicle ON mention (vehicle, entry);
CREATE INDEX mention_by_entry ON mention (entry);
CREATE TRIGGER mention_is_closed BEFORE INSERT ON mention
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER mention_keeps BEFORE UPDATE ON mention BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER mention_stays BEFORE DELETE ON mention BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;

-- The turning points of a car: few rows a car, so that its state is found at once however many entries it has.
CREATE TABLE life (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  vehicle TEXT NOT NULL REFERENCES vehicle,
  turn    TEXT NOT NULL CHECK (turn IN ('bought', 'sold', 'finished', 'passed'))
) STRICT;
CREATE INDEX life_by_vehicle ON life (vehicle, entry);
CREATE INDEX life_by_entry ON life (entry);
CREATE TRIGGER life_is_closed BEFORE INSERT ON life
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER life_keeps BEFORE UPDATE ON life BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER life_stays BEFORE DELETE ON life BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
