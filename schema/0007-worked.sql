-- Hours worked on a car, own and paid: kept by the triggers below as `balance` is kept for money, so that a board of a
-- thousand cars needs no sum over all years; `check` adds them up again.
CREATE TABLE worked (
  vehicle TEXT PRIMARY KEY REFERENCES vehicle,
  own     INTEGER NOT NULL,
  paid    INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
INSERT INTO worked SELECT l.vehicle, sum(l.own), sum(l.paid) FROM labour l JOIN live_entry USING (entry) GROUP BY l.vehicle;
CREATE TRIGGER labour_counts AFTER INSERT ON labour BEGIN
  INSERT INTO worked VALUES (NEW.vehicle, NEW.own, NEW.paid)
  ON CONFLICT (vehicle) DO UPDATE SET own = own + NEW.own, paid = paid + NEW.paid;
END;
CREATE TRIGGER voided_labour_counts_no_more AFTER INSERT ON entry WHEN NEW.voids IS NOT NULL BEGIN
  UPDATE worked
  SET own = own - (SELECT sum(l.own) FROM labour l WHERE l.entry = NEW.voids AND l.vehicle = worked.vehicle),
      paid = paid - (SELECT sum(l.paid) FROM labour l WHERE l.entry = NEW.voids AND l.vehicle = worked.vehicle)
  WHERE vehicle IN (SELECT l.vehicle FROM labour l WHERE l.entry = NEW.voids);
END;
