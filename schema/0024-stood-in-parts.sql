-- Hours that are put right after a second closing stand under several days, each part under the one on which it came, as
-- money does: an entry may have more than one row.
DROP INDEX stood_by_entry;
CREATE INDEX stood_by_entry ON stood (entry);
