-- A car goes to pieces, and what it will still bring from that day on.
CREATE TABLE part_out (
  entry        INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  vehicle      TEXT NOT NULL REFERENCES vehicle,
  still_brings INTEGER NOT NULL CHECK (still_brings >= 0)
) STRICT;
CREATE INDEX part_out_by_vehicle ON part_out (vehicle, entry);
CREATE INDEX part_out_by_entry ON part_out (entry);
CREATE TRIGGER part_out_is_closed BEFORE INSERT ON part_out
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER part_out_keeps BEFORE UPDATE ON part_out BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER part_out_stays BEFORE DELETE ON part_out BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
