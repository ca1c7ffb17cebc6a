-- An appraisal keeps the job file as it was given and, apart from it, what it left to the book: what "own" figures and the
-- book's comparables came to on that day, as TOML (empty: nothing was left to the book). Absent: kept before the two were
-- told apart; then the job file holds the figures themselves, or they are worked out again as of its day.
ALTER TABLE appraisal ADD COLUMN settled TEXT;
-- The last entry of the book when it was kept: what tells which came first, a line of it or one planned by hand, and where an
-- export has it (-1: not known).
ALTER TABLE appraisal ADD COLUMN after_entry INTEGER NOT NULL DEFAULT -1;
DROP TRIGGER appraisal_keeps;
CREATE TRIGGER appraisal_keeps BEFORE UPDATE OF vehicle, day, job, figures, settled, after_entry ON appraisal
BEGIN SELECT RAISE(ABORT, 'an appraisal is kept as it stood'); END;
