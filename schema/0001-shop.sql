-- The shop itself: what the book counts in and what its owner has set. Settings are wishes, not facts of money: they may
-- change, and no entry depends on them.
CREATE TABLE setting (
  name  TEXT PRIMARY KEY CHECK (name <> ''),
  value TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- Cars, by their short name. A car stands here from the first time it is mentioned; whether it is considered, owned or
-- sold follows from its entries.
CREATE TABLE vehicle (
  tag TEXT PRIMARY KEY CHECK (tag <> '' AND length(tag) <= 24 AND tag NOT GLOB '*[^a-z0-9-]*')
) STRICT, WITHOUT ROWID;

-- Accounts: a kind, and whose it is (purse, car, stock item, receipt line, supplier); '' where there is one of its kind.
CREATE TABLE account (
  account INTEGER PRIMARY KEY,
  kind    TEXT NOT NULL CHECK (kind IN (
    'purse', 'vehicle cost', 'recovered', 'stock', 'core deposit', 'tool deposit', 'tools',   -- assets (recovered is a deduction)
    'payable', 'buyer deposit', 'sales tax',                                                  -- liabilities
    'owner',                                                                                  -- equity
    'sales', 'recovered income', 'deposit kept',                                              -- income
    'cost of sale', 'selling cost', 'late cost', 'written off', 'looking', 'overhead')),      -- expense
  name    TEXT NOT NULL,
  UNIQUE (kind, name)
) STRICT;
CREATE INDEX account_by_name ON account (name);

-- Promise 2, append-only: an account that postings rest on keeps its meaning.
CREATE TRIGGER account_keeps BEFORE UPDATE ON account BEGIN SELECT RAISE(ABORT, 'accounts are never changed'); END;
CREATE TRIGGER account_stays BEFORE DELETE ON account BEGIN SELECT RAISE(ABORT, 'accounts are never deleted'); END;
CREATE TRIGGER vehicle_keeps BEFORE UPDATE ON vehicle BEGIN SELECT RAISE(ABORT, 'vehicles are never renamed'); END;
CREATE TRIGGER vehicle_stays BEFORE DELETE ON vehicle BEGIN SELECT RAISE(ABORT, 'vehicles are never deleted'); END;
