-- The log of each machine and the attachments all machines share.
-- Rows are only ever added, save for where each machine's log stands.

CREATE TABLE machine (
  number  INTEGER PRIMARY KEY,
  id      TEXT    NOT NULL UNIQUE,
  name    TEXT    NOT NULL,
  entries INTEGER NOT NULL DEFAULT 0,  -- number of the newest entry
  last    TEXT    NOT NULL DEFAULT '', -- latest time any entry bears, RFC 3339, UTC
  link    BLOB    NOT NULL             -- newest link of the chain of sums
) STRICT;

CREATE TABLE entry (
  machine INTEGER NOT NULL REFERENCES machine (number),
  seq     INTEGER NOT NULL CHECK (seq > 0),
  id      TEXT    NOT NULL CHECK (id <> ''),
  line    TEXT    NOT NULL, -- the entry as JSON, see entry.schema.json; seq is beside it
  link    BLOB    NOT NULL, -- SHA-256 of the link before and the line
  UNIQUE (machine, seq),
  UNIQUE (machine, id)
) STRICT;

CREATE TABLE blob (
  number INTEGER PRIMARY KEY,
  sum    TEXT NOT NULL UNIQUE, -- SHA-256 of the data, lower-case hex
  type   TEXT NOT NULL,        -- media type
  data   BLOB NOT NULL
) STRICT;
