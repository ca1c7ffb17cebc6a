-- Where a person puts a booked line, an entry or an operation in the budget, against what the words alone would say. It lies
-- on the desk: it changes no entry and no figure of money, only under which heading of a report it stands.
CREATE TABLE assigned (
  vehicle TEXT NOT NULL REFERENCES vehicle,
  what    TEXT NOT NULL CHECK (what GLOB 'line ?*' OR what GLOB 'entry ?*' OR what GLOB 'operation ?*'),
  heading TEXT NOT NULL CHECK (heading <> ''),
  PRIMARY KEY (vehicle, what)
) STRICT, WITHOUT ROWID;
