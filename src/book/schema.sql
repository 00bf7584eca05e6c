-- The design book, format 1. What each column holds is told in DEVELOPERS.md.

CREATE TABLE design (
  id      INTEGER PRIMARY KEY,
  name    TEXT NOT NULL UNIQUE,
  retired INTEGER NOT NULL DEFAULT 0 CHECK (retired IN (0, 1)),
  newest  INTEGER NOT NULL DEFAULT 0,
  kept    TEXT NOT NULL DEFAULT ''
) STRICT;

CREATE INDEX design_by_age ON design (retired, kept DESC, newest DESC);

CREATE TABLE revision (
  id            INTEGER PRIMARY KEY AUTOINCREMENT,
  design        INTEGER NOT NULL REFERENCES design (id),
  number        INTEGER NOT NULL CHECK (number > 0),
  time          TEXT NOT NULL,
  note          TEXT NOT NULL,
  style         TEXT,
  style_version TEXT,
  program       TEXT NOT NULL,
  tape          TEXT NOT NULL,
  fields        TEXT NOT NULL,
  figures       TEXT NOT NULL,
  UNIQUE (design, number)
) STRICT;

CREATE TRIGGER revision_is_never_changed BEFORE UPDATE ON revision
BEGIN SELECT raise(ABORT, 'a revision, once kept, is never changed'); END;

CREATE TRIGGER revision_is_never_deleted BEFORE DELETE ON revision
BEGIN SELECT raise(ABORT, 'a revision, once kept, is never deleted'); END;

CREATE TRIGGER design_is_never_deleted BEFORE DELETE ON design
BEGIN SELECT raise(ABORT, 'a design, once kept, is never deleted'); END;

-- What words are looked for in: of the newest revision of each design, by its id.
CREATE VIRTUAL TABLE words USING fts5 (
  name, client, note, content = '', contentless_delete = 1, tokenize = 'unicode61 remove_diacritics 2'
);
