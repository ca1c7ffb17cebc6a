-- The last day under which anything of an account stands: of a car that has ended only what stands after that day is late, and
-- a board of a thousand cars looks for it only where there is any. Kept as the sums are; `check` looks at it again.
ALTER TABLE account_sum ADD COLUMN last TEXT NOT NULL DEFAULT '';
UPDATE account_sum SET last = (SELECT max(d.stands) FROM account_day d WHERE d.account = account_sum.account);
DROP TRIGGER entry_counts_in_all;
CREATE TRIGGER entry_counts_in_all AFTER INSERT ON entry WHEN NEW.money BEGIN
  INSERT INTO account_sum
    SELECT account, sum(amount), sum(quantity), max(stands) FROM counted WHERE entry = NEW.entry GROUP BY 1
  ON CONFLICT (account) DO UPDATE SET amount = amount + excluded.amount, quantity = quantity + excluded.quantity,
    last = max(last, excluded.last);
END;
