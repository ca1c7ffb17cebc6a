-- An entry and its postings: the ledger.
--
-- SQLite has no check at commit except deferred keys, so the order does the work: postings and details first, their entry
-- last. The entry closes over them; a posting whose entry never comes fails at COMMIT.
CREATE TABLE posting (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  seq      INTEGER NOT NULL,
  account  INTEGER NOT NULL REFERENCES account,
  amount   INTEGER NOT NULL,                -- minor units; credits are negative
  quantity INTEGER,                         -- stock only: thousandths of a piece
  PRIMARY KEY (entry, seq)
) STRICT, WITHOUT ROWID;
CREATE INDEX posting_by_account ON posting (account, entry);

CREATE TABLE entry (
  entry    INTEGER PRIMARY KEY CHECK (entry > 0),
  day      TEXT NOT NULL CHECK (day IS date(day, '+0 days')),  -- ISO 8601, in the calendar
  kind     TEXT NOT NULL CHECK (kind <> ''),        -- the event, in the words of the events file
  money    INTEGER NOT NULL CHECK (money IN (0, 1)),-- 0: a memorandum, which moves no money and has no postings
  event    TEXT NOT NULL,                           -- the event as it can be posted again, one line of TOML
  voids    INTEGER UNIQUE REFERENCES entry,         -- a reversal names the entry that it takes back
  recorded TEXT NOT NULL,                           -- when it was written, ISO 8601, UTC
  previous BLOB NOT NULL CHECK (length(previous) = 32),
  hash     BLOB NOT NULL CHECK (length(hash) = 32)
) STRICT;
CREATE INDEX entry_by_day ON entry (day);

-- Entries that count: neither taken back nor taking back. Both stay visible in the journal; no report counts either.
CREATE VIEW live_entry AS
  SELECT e.* FROM entry e WHERE e.voids IS NULL AND NOT EXISTS (SELECT 1 FROM entry v WHERE v.voids = e.entry);

-- What an account stands at: kept by the trigger below, so that a board of a thousand cars needs no sum over all years;
-- `check` adds it up again from the postings.
CREATE TABLE balance (
  account  INTEGER PRIMARY KEY REFERENCES account,
  amount   INTEGER NOT NULL,
  quantity INTEGER NOT NULL
) STRICT;
CREATE TRIGGER posting_counts AFTER INSERT ON posting BEGIN
  INSERT INTO balance VALUES (NEW.account, NEW.amount, coalesce(NEW.quantity, 0))
  ON CONFLICT (account) DO UPDATE SET amount = amount + NEW.amount, quantity = quantity + coalesce(NEW.quantity, 0);
END;

-- Promise 1, balanced: an entry closes over two or more postings that add up to zero; a memorandum over none.
CREATE TRIGGER entry_balances BEFORE INSERT ON entry
WHEN (SELECT CASE WHEN NEW.money THEN count(*) < 2 OR sum(amount) <> 0 ELSE count(*) <> 0 END
      FROM posting WHERE posting.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry does not add up to zero'); END;

-- Promise 2, append-only: entries follow one another without a gap, each names the hash of the one before it, and none
-- changes or goes.
CREATE TRIGGER entry_follows BEFORE INSERT ON entry
WHEN NEW.entry <> (SELECT coalesce(max(entry), 0) + 1 FROM entry)
  OR NEW.previous <> coalesce((SELECT hash FROM entry WHERE entry = NEW.entry - 1), zeroblob(32))
BEGIN SELECT RAISE(ABORT, 'entry does not follow the last one'); END;
CREATE TRIGGER entry_keeps BEFORE UPDATE ON entry BEGIN SELECT RAISE(ABORT, 'entries are never changed'); END;
CREATE TRIGGER entry_stays BEFORE DELETE ON entry BEGIN SELECT RAISE(ABORT, 'entries are never deleted'); END;
CREATE TRIGGER posting_is_closed BEFORE INSERT ON posting
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER posting_keeps BEFORE UPDATE ON posting BEGIN SELECT RAISE(ABORT, 'postings are never changed'); END;
CREATE TRIGGER posting_stays BEFORE DELETE ON posting BEGIN SELECT RAISE(ABORT, 'postings are never deleted'); END;

-- Promise 2: a reversal takes back an earlier entry that is none itself, and takes back exactly what it did.
CREATE TRIGGER reversal_is_of_an_entry BEFORE INSERT ON entry
WHEN NEW.voids IS NOT NULL AND NOT EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.voids AND voids IS NULL)
BEGIN SELECT RAISE(ABORT, 'a reversal cannot be voided'); END;
CREATE TRIGGER reversal_mirrors BEFORE INSERT ON entry
WHEN NEW.voids IS NOT NULL AND EXISTS (
  SELECT account FROM (
    SELECT account, amount, coalesce(quantity, 0) AS quantity FROM posting WHERE entry IN (NEW.entry, NEW.voids))
  GROUP BY account HAVING sum(amount) <> 0 OR sum(quantity) <> 0)
BEGIN SELECT RAISE(ABORT, 'a reversal takes back exactly what was entered'); END;
