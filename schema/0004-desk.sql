-- What lies on the desk: things that change and that no entry rests on.

-- A running clock, one a worker; it survives restarts because it stands here.
CREATE TABLE clock (
  worker    TEXT PRIMARY KEY,
  vehicle   TEXT NOT NULL REFERENCES vehicle,
  operation TEXT NOT NULL,
  since     TEXT NOT NULL       -- ISO 8601, UTC
) STRICT, WITHOUT ROWID;

-- Files of receipts that were taken in, by SHA-256: the same file twice adds nothing.
CREATE TABLE taken_in (
  sha256 TEXT PRIMARY KEY,
  name   TEXT NOT NULL,
  day    TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- Appraisals as they stood, dated; the one in force at the purchase is what a car is measured against.
CREATE TABLE appraisal (
  appraisal INTEGER PRIMARY KEY,
  vehicle   TEXT NOT NULL REFERENCES vehicle,
  day       TEXT NOT NULL CHECK (day IS date(day, '+0 days')),
  entry     INTEGER REFERENCES entry,   -- the purchase that it was made for, where it is the one in force
  job       TEXT NOT NULL,              -- the job file, whole
  figures   TEXT NOT NULL               -- what it came to, JSON
) STRICT;
CREATE INDEX appraisal_by_vehicle ON appraisal (vehicle);
CREATE TRIGGER appraisal_keeps BEFORE UPDATE OF vehicle, day, job, figures ON appraisal
BEGIN SELECT RAISE(ABORT, 'an appraisal is kept as it stood'); END;
CREATE TRIGGER appraisal_stays BEFORE DELETE ON appraisal BEGIN SELECT RAISE(ABORT, 'an appraisal is kept as it stood'); END;
