-- What an entry moves is added to the sums of its accounts posting by posting, under the entry's own day or the one that the
-- posting stands under: the view `counted` says the same of it, but works out too what it would be of the older layout, and
-- groups it, which cost an import of thousands of papers a tenth of its time. What takes back an entry of the older layout
-- still goes by the view.
DROP TRIGGER entry_counts_by_days;
DROP TRIGGER entry_counts_in_all;
CREATE TRIGGER entry_counts AFTER INSERT ON entry
WHEN NEW.money AND coalesce(NEW.voids, NEW.entry) >= (SELECT s.entry FROM sealed_from s WHERE s.what = 'days') BEGIN
  INSERT INTO account_day
    SELECT account, NEW.day, coalesce(stands, NEW.day), amount, coalesce(quantity, 0) FROM posting WHERE entry = NEW.entry
  ON CONFLICT (account, stands, day) DO UPDATE SET amount = amount + excluded.amount, quantity = quantity + excluded.quantity;
  INSERT INTO account_sum
    SELECT account, amount, coalesce(quantity, 0), coalesce(stands, NEW.day) FROM posting WHERE entry = NEW.entry
  ON CONFLICT (account) DO UPDATE SET amount = amount + excluded.amount, quantity = quantity + excluded.quantity,
    last = max(last, excluded.last);
END;
CREATE TRIGGER older_entry_counts AFTER INSERT ON entry
WHEN NEW.money AND coalesce(NEW.voids, NEW.entry) < (SELECT s.entry FROM sealed_from s WHERE s.what = 'days') BEGIN
  INSERT INTO account_day
    SELECT account, day, stands, sum(amount), sum(quantity) FROM counted WHERE entry = NEW.entry GROUP BY 1, 2, 3
  ON CONFLICT (account, stands, day) DO UPDATE SET amount = amount + excluded.amount, quantity = quantity + excluded.quantity;
  INSERT INTO account_sum
    SELECT account, sum(amount), sum(quantity), max(stands) FROM counted WHERE entry = NEW.entry GROUP BY 1
  ON CONFLICT (account) DO UPDATE SET amount = amount + excluded.amount, quantity = quantity + excluded.quantity,
    last = max(last, excluded.last);
END;
