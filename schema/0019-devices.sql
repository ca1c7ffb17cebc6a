-- The devices that may use the shop's page. They lie on the desk: no entry rests on them, and an export leaves them out;
-- a book that is restored has to be paired with anew. Of what proves a device only a hash stands here.
CREATE TABLE device (
  device    INTEGER PRIMARY KEY,
  id        TEXT NOT NULL UNIQUE CHECK (length(id) = 32),           -- hexadecimal: by what it asks the house for its proof
  name      TEXT NOT NULL CHECK (name <> ''),
  person    TEXT NOT NULL CHECK (person <> ''),                     -- whose it is
  token     TEXT NOT NULL UNIQUE CHECK (length(token) = 64),        -- SHA-256 of what its cookie holds
  origin    TEXT NOT NULL CHECK (origin LIKE 'http%://%'),          -- by which address it was paired
  paired    TEXT NOT NULL,                                          -- ISO 8601, UTC
  seen      TEXT NOT NULL,                                          -- to the hour
  forgotten TEXT,                                                   -- since when it is none of the shop's any more
  CHECK (seen >= paired)
) STRICT;
CREATE UNIQUE INDEX device_by_name ON device (name) WHERE forgotten IS NULL;
-- A device that was forgotten stays in the list, and is never let in again.
CREATE TRIGGER device_stays BEFORE DELETE ON device BEGIN SELECT RAISE(ABORT, 'devices are forgotten, not deleted'); END;
CREATE TRIGGER device_keeps BEFORE UPDATE ON device
WHEN NEW.id <> OLD.id OR NEW.name <> OLD.name OR NEW.person <> OLD.person OR NEW.token <> OLD.token OR NEW.origin <> OLD.origin
  OR NEW.paired <> OLD.paired OR (OLD.forgotten IS NOT NULL AND NEW.forgotten IS NOT OLD.forgotten)
BEGIN SELECT RAISE(ABORT, 'a device is what it was when it was paired'); END;

-- The pairing code that is open, if one is: once, for some minutes, for a few tries.
CREATE TABLE pairing_code (
  one   INTEGER PRIMARY KEY CHECK (one = 1),
  code  TEXT NOT NULL CHECK (length(code) = 64),                    -- SHA-256
  until TEXT NOT NULL,                                              -- ISO 8601, UTC
  wrong INTEGER NOT NULL DEFAULT 0                                  -- tries so far
) STRICT;

-- How the page is reached in the home network: what a phone keeps hangs on exactly this.
CREATE TABLE house (
  one     INTEGER PRIMARY KEY CHECK (one = 1),
  scheme  TEXT NOT NULL CHECK (scheme IN ('http', 'https')),
  address TEXT NOT NULL,
  port    INTEGER NOT NULL CHECK (port BETWEEN 1 AND 65535)
) STRICT;
