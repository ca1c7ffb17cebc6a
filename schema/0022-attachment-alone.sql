-- A photograph may belong to an entry about no car, such as a paper of the shop: the column of 0003-details.sql that had to
-- name one may be empty now. SQLite changes that only by making the table anew.
DROP TRIGGER attachment_is_closed;
DROP TRIGGER attachment_keeps;
DROP TRIGGER attachment_stays;
DROP INDEX attachment_by_vehicle;
DROP INDEX attachment_by_entry;
ALTER TABLE attachment RENAME TO attachment_before;
CREATE TABLE attachment (
  entry    INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  vehicle TEXT REFERENCES vehicle,
  sha256  TEXT NOT NULL CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),
  name    TEXT NOT NULL,
  size    INTEGER NOT NULL CHECK (size >= 0)
) STRICT;
INSERT INTO attachment (rowid, entry, vehicle, sha256, name, size)
  SELECT rowid, entry, vehicle, sha256, name, size FROM attachment_before ORDER BY rowid;
DROP TABLE attachment_before;
CREATE INDEX attachment_by_vehicle ON attachment (vehicle);
CREATE INDEX attachment_by_entry ON attachment (entry);
CREATE TRIGGER attachment_is_closed BEFORE INSERT ON attachment
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER attachment_keeps BEFORE UPDATE ON attachment BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER attachment_stays BEFORE DELETE ON attachment BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;
