-- Prices of similar cars that were seen: what the market says, no facts of money. They may be taken out again, and no entry
-- rests on them.
CREATE TABLE comparable (
  comparable INTEGER PRIMARY KEY,
  model      TEXT NOT NULL,                                    -- '' fits every car
  price      INTEGER NOT NULL CHECK (price > 0),               -- minor units
  kind       TEXT NOT NULL CHECK (kind IN ('asking', 'sold')),
  odometer   INTEGER NOT NULL CHECK (odometer >= 0),           -- thousandths of the book's unit
  year       INTEGER NOT NULL CHECK (year BETWEEN 1886 AND 2200),
  grade      INTEGER NOT NULL CHECK (grade BETWEEN 1000 AND 5000),  -- thousandths; 1 rough, 5 spotless
  day        TEXT NOT NULL CHECK (day = date(day)),            -- when it was seen last
  note       TEXT NOT NULL,
  UNIQUE (model, price, kind, odometer, year, grade, note)     -- the same car pasted again adds nothing
) STRICT;
