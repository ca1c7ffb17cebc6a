-- What a phone or a form kept, by the id that it was given there: the same id twice is one entry, whatever was lost on the
-- way. It stays spent when the entry is taken back. `sent` is the SHA-256 of what was sent, in hexadecimal; empty where an
-- events file only names the id. Id and hash stand in the entry's event as well, under its seal: an export carries them.
-- Which device sent it, and what it looked like when it came, lie on the desk.
CREATE TABLE kept (
  kept    TEXT PRIMARY KEY CHECK (length(kept) = 32 AND kept NOT GLOB '*[^0-9a-f]*'),
  sent    TEXT NOT NULL CHECK (length(sent) IN (0, 64) AND sent NOT GLOB '*[^0-9a-f]*'),
  entry   INTEGER REFERENCES entry DEFERRABLE INITIALLY DEFERRED,     -- none: what it did is no entry
  device  TEXT NOT NULL,
  may_be  INTEGER REFERENCES entry DEFERRABLE INITIALLY DEFERRED      -- the entry that it may be the same as; asked about
) STRICT;
CREATE INDEX kept_by_entry ON kept (entry);
-- A photograph that belongs to an entry: the memorandum that keeps it, and whose it is. Its event says the same; where the
-- entry is put right, or a quick line gives its place to its paper, the photograph follows.
CREATE TABLE photo (
  attached INTEGER PRIMARY KEY REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  of_entry INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED
) STRICT;
CREATE INDEX photo_by_entry ON photo (of_entry);
CREATE TRIGGER kept_keeps BEFORE UPDATE OF kept, sent, entry, device ON kept
BEGIN SELECT RAISE(ABORT, 'what was kept under an id is never changed'); END;
CREATE TRIGGER kept_stays BEFORE DELETE ON kept BEGIN SELECT RAISE(ABORT, 'an id that was kept is never deleted'); END;
