-- What all entries that count move, debits and credits together: kept so that no sum over any of them can leave the range
-- of money (10^15 minor units), whatever is asked for, and whatever is taken back later. An entry that would bring it beyond
-- nine tenths of that is refused when it is made; taking one back never is.
CREATE TABLE turned_over (
  one    INTEGER PRIMARY KEY CHECK (one = 1),
  amount INTEGER NOT NULL
) STRICT;
-- A book of before may hold more than its sums can show: as much of it as the column can hold.
INSERT INTO turned_over SELECT 1, CAST(min(coalesce(total(abs(p.amount * 1.0)), 0), 4e18) AS INTEGER)
  FROM posting p JOIN entry e USING (entry)
  WHERE e.voids IS NULL AND NOT EXISTS (SELECT 1 FROM entry v WHERE v.voids = e.entry AND v.day = e.day);
CREATE TRIGGER entry_turns_over AFTER INSERT ON entry WHEN NEW.voids IS NULL AND NEW.money BEGIN
  UPDATE turned_over SET amount = amount + (SELECT sum(abs(amount)) FROM posting WHERE entry = NEW.entry);
  SELECT RAISE(ABORT, 'the book holds more than can be added up') FROM turned_over WHERE amount > 900000000000000;
END;
-- An entry taken back on its own day counts on no day; one taken back on a later day still counts in between.
CREATE TRIGGER voided_entry_turns_over_no_more AFTER INSERT ON entry
WHEN NEW.voids IS NOT NULL AND NEW.money AND NEW.day = (SELECT day FROM entry WHERE entry = NEW.voids) BEGIN
  UPDATE turned_over
  SET amount = amount - (SELECT coalesce(sum(abs(amount)), 0) FROM posting WHERE entry = NEW.voids);
END;
