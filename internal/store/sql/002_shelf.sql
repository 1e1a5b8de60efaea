-- The shop's own papers, which belong to no machine and may change.

CREATE TABLE paper (
  name TEXT NOT NULL PRIMARY KEY CHECK (name <> ''),
  data BLOB NOT NULL
) STRICT;
