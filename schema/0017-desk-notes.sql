-- What lies on the desk and moves no money (settings, kept appraisals, comparables, headings, files taken in) may change; that
-- it changed, and to what, is noted here, and never changes. Each note carries a hash over its content, the note before and
-- the last entry of the journal; the next entry of the journal names the last note in turn. So neither can be cut or changed
-- alone, and `check` finds what was changed on the desk without a note.
CREATE TABLE desk_note (
  note     INTEGER PRIMARY KEY CHECK (note > 0),
  what     TEXT NOT NULL CHECK (what <> ''),      -- which thing: "setting hour", "comparable 12"
  value    TEXT,                                  -- what it is from now on; absent: it was taken away
  entry    INTEGER NOT NULL,                      -- the last entry of the journal when it was written, 0 before the first
  recorded TEXT NOT NULL,                         -- ISO 8601, UTC
  hash     BLOB NOT NULL CHECK (length(hash) = 32)
) STRICT;
CREATE INDEX desk_note_by_what ON desk_note (what);
CREATE TRIGGER desk_note_follows BEFORE INSERT ON desk_note
WHEN NEW.note <> (SELECT coalesce(max(note), 0) + 1 FROM desk_note)
  OR NEW.entry <> (SELECT coalesce(max(entry), 0) FROM entry)
BEGIN SELECT RAISE(ABORT, 'a note does not follow the last one'); END;
CREATE TRIGGER desk_note_keeps BEFORE UPDATE ON desk_note BEGIN SELECT RAISE(ABORT, 'notes are never changed'); END;
CREATE TRIGGER desk_note_stays BEFORE DELETE ON desk_note BEGIN SELECT RAISE(ABORT, 'notes are never deleted'); END;

-- The last note before an entry, where one was written since the entry before it: sealed with the entry.
CREATE TABLE noted_before (
  entry INTEGER NOT NULL REFERENCES entry DEFERRABLE INITIALLY DEFERRED,
  note  INTEGER NOT NULL REFERENCES desk_note,
  seal  TEXT NOT NULL CHECK (length(seal) = 64)
) STRICT;
CREATE INDEX noted_before_by_entry ON noted_before (entry);
CREATE INDEX noted_before_by_note ON noted_before (note);
CREATE TRIGGER noted_before_is_closed BEFORE INSERT ON noted_before
WHEN EXISTS (SELECT 1 FROM entry WHERE entry.entry = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'entry is closed'); END;
CREATE TRIGGER noted_before_keeps BEFORE UPDATE ON noted_before BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;
CREATE TRIGGER noted_before_stays BEFORE DELETE ON noted_before BEGIN SELECT RAISE(ABORT, 'details of an entry are never deleted'); END;

-- What every amount and every distance of the book means.
CREATE TRIGGER shop_keeps BEFORE UPDATE ON setting WHEN OLD.name IN ('currency', 'distance')
BEGIN SELECT RAISE(ABORT, 'currency and distance of a book are never changed'); END;
CREATE TRIGGER shop_stays BEFORE DELETE ON setting WHEN OLD.name IN ('currency', 'distance')
BEGIN SELECT RAISE(ABORT, 'currency and distance of a book are never changed'); END;
-- An appraisal is kept as it stood, the purchase that it belongs to included.
CREATE TRIGGER appraisal_keeps_its_purchase BEFORE UPDATE OF entry ON appraisal
BEGIN SELECT RAISE(ABORT, 'an appraisal is kept as it stood'); END;
