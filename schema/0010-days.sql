-- Days beat the order of typing. What was put into a car and what was recovered from it stays on its two accounts for ever:
-- a sale, a write-off and a pass move no cost. Inventory, cost of sale, late cost and looking are read from them by days.
--
-- An amount counts from the day of its entry; `stands` says under which day it counts, where that is another one: a reversal
-- stands under the day of what it takes back, so that a cost taken back months later is less cost of before the sale.
ALTER TABLE posting ADD COLUMN stands TEXT CHECK (stands IS date(stands, '+0 days'));

-- What is sealed from which entry on: entries before it were sealed without it, and stay as they were sealed. A row that
-- somebody changes shows in the seals.
CREATE TABLE sealed_from (
  what  TEXT PRIMARY KEY,
  entry INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
INSERT INTO sealed_from SELECT 'days', coalesce(max(entry), 0) + 1 FROM entry;

-- Entries of the older layout moved a car's cost to the cost of sale and on to late cost, looking and income. Read by days
-- they say: their closing postings nothing, the others what they put into the car or recovered from it.
INSERT OR IGNORE INTO account (kind, name) SELECT 'vehicle cost', name FROM account WHERE kind IN ('late cost', 'looking');
INSERT OR IGNORE INTO account (kind, name) SELECT 'recovered', name FROM account WHERE kind = 'recovered income';
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
    CASE WHEN e.kind = 'void' THEN coalesce((SELECT max(e.day, r.day) FROM entry r WHERE r.entry = e.entry + 1
      AND r.kind = 'receipt' AND r.event LIKE '%, replaces = ' || e.voids || ',%'), e.day) ELSE e.day END,
    -- A full paper stood for its quick line as far as that went; only what was late cost of a sold car stands under its own day.
    coalesce(p.stands, (SELECT o.day FROM entry o WHERE o.entry = e.voids), CASE WHEN e.kind = 'receipt' AND a.kind = 'vehicle cost'
      THEN (SELECT min(o.day, e.day) FROM entry v JOIN entry o ON o.entry = v.voids
            WHERE v.entry = e.entry - 1 AND e.event LIKE '%, replaces = ' || v.voids || ',%') END, e.day),
    p.amount, coalesce(p.quantity, 0)
  FROM posting p JOIN entry e USING (entry) JOIN account a USING (account)
  WHERE coalesce(e.voids, e.entry) < (SELECT s.entry FROM sealed_from s WHERE s.what = 'days')
    AND NOT (a.kind IN ('vehicle cost', 'recovered', 'late cost', 'looking', 'cost of sale', 'written off')
      AND (SELECT o.kind FROM entry o WHERE o.entry = coalesce(e.voids, e.entry)) IN ('sell', 'write off', 'pass'));

-- What each account moved on each day, and under which day it stands: kept by the trigger below as `balance` is, so that an
-- account on a day needs no sum over the journal; `check` adds it up again.
CREATE TABLE account_day (
  account  INTEGER NOT NULL REFERENCES account,
  day      TEXT NOT NULL,
  stands   TEXT NOT NULL,
  amount   INTEGER NOT NULL,
  quantity INTEGER NOT NULL,
  PRIMARY KEY (account, stands, day)
) STRICT, WITHOUT ROWID;
INSERT INTO account_day SELECT account, day, stands, sum(amount), sum(quantity) FROM counted GROUP BY 1, 2, 3;
CREATE TRIGGER entry_counts_by_days AFTER INSERT ON entry WHEN NEW.money BEGIN
  INSERT INTO account_day
    SELECT account, day, stands, sum(amount), sum(quantity) FROM counted WHERE entry = NEW.entry GROUP BY 1, 2, 3
  ON CONFLICT (account, stands, day) DO UPDATE SET amount = amount + excluded.amount, quantity = quantity + excluded.quantity;
END;
-- The same over all days, for a board of a thousand cars.
CREATE TABLE account_sum (
  account  INTEGER PRIMARY KEY REFERENCES account,
  amount   INTEGER NOT NULL,
  quantity INTEGER NOT NULL
) STRICT;
INSERT INTO account_sum SELECT account, sum(amount), sum(quantity) FROM account_day GROUP BY 1;
CREATE TRIGGER entry_counts_in_all AFTER INSERT ON entry WHEN NEW.money BEGIN
  INSERT INTO account_sum
    SELECT account, sum(amount), sum(quantity) FROM counted WHERE entry = NEW.entry GROUP BY 1
  ON CONFLICT (account) DO UPDATE SET amount = amount + excluded.amount, quantity = quantity + excluded.quantity;
END;

-- Promise 2: a reversal takes back exactly what was entered, under the day under which it stood.
DROP TRIGGER reversal_mirrors;
CREATE TRIGGER reversal_mirrors BEFORE INSERT ON entry
WHEN NEW.voids IS NOT NULL AND EXISTS (
  SELECT account FROM (
    SELECT account, amount, coalesce(quantity, 0) AS quantity,
      CASE WHEN NEW.voids < (SELECT s.entry FROM sealed_from s WHERE s.what = 'days') THEN ''  -- see the view counted
           WHEN entry = NEW.entry THEN coalesce(stands, NEW.day)
           ELSE coalesce(stands, (SELECT o.day FROM entry o WHERE o.entry = NEW.voids)) END AS under
    FROM posting WHERE entry IN (NEW.entry, NEW.voids))
  GROUP BY account, under HAVING sum(amount) <> 0 OR sum(quantity) <> 0)
BEGIN SELECT RAISE(ABORT, 'a reversal takes back exactly what was entered'); END;
