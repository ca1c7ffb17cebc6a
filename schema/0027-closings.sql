-- Each entry asks up to which day the book is closed: found without a look at every entry of a book that never was.
CREATE INDEX entry_closes ON entry (day) WHERE kind = 'close';
