-- +goose Up
-- Instants are UTC milliseconds, 0 for none.

CREATE TABLE inbox (
  seq     INTEGER PRIMARY KEY AUTOINCREMENT, -- the order of arrival
  backend TEXT NOT NULL,
  id      TEXT NOT NULL,
  arrived INTEGER NOT NULL,
  state   TEXT NOT NULL DEFAULT 'new' CHECK (state IN ('new', 'handled', 'parked')),
  reason  TEXT NOT NULL DEFAULT '',
  body    TEXT NOT NULL,
  UNIQUE (backend, id)
) STRICT;
CREATE INDEX inbox_new ON inbox (seq) WHERE state = 'new';
CREATE INDEX inbox_parked ON inbox (seq) WHERE state = 'parked';

CREATE TABLE cursor (
  backend TEXT NOT NULL,
  name    TEXT NOT NULL,
  value   TEXT NOT NULL,
  PRIMARY KEY (backend, name)
) STRICT, WITHOUT ROWID;

CREATE TABLE standing (
  company TEXT PRIMARY KEY,
  body    TEXT NOT NULL
) STRICT;

CREATE TABLE item (
  item TEXT PRIMARY KEY,
  body TEXT NOT NULL
) STRICT;

CREATE TABLE defect (
  id          TEXT PRIMARY KEY,
  item        TEXT NOT NULL,
  kind        TEXT NOT NULL,
  check_id    TEXT NOT NULL,
  closed      INTEGER NOT NULL,
  repaired_at INTEGER NOT NULL,
  reported_at INTEGER NOT NULL, -- first
  last_at     INTEGER NOT NULL, -- reported last
  body        TEXT NOT NULL
) STRICT;
CREATE INDEX defect_item ON defect (item, closed, repaired_at);
CREATE INDEX defect_kind ON defect (kind, check_id, last_at);
CREATE INDEX defect_open ON defect (reported_at) WHERE closed = 0;

CREATE TABLE record (
  seq        INTEGER PRIMARY KEY AUTOINCREMENT,
  id         TEXT NOT NULL UNIQUE,
  kind       TEXT NOT NULL,
  at         INTEGER NOT NULL,
  arrived    INTEGER NOT NULL,
  company    TEXT NOT NULL,
  date       TEXT NOT NULL,
  platoon    TEXT NOT NULL,
  item       TEXT NOT NULL,
  check_id   TEXT NOT NULL,
  defect     TEXT NOT NULL,
  state      TEXT NOT NULL,
  number     REAL,
  word       TEXT NOT NULL,
  words      TEXT NOT NULL,
  who        TEXT NOT NULL,
  message    TEXT NOT NULL,
  supersedes TEXT NOT NULL,
  note       TEXT NOT NULL
) STRICT;
CREATE INDEX record_at ON record (at, seq);
CREATE INDEX record_item ON record (item, at, seq) WHERE item != '';
CREATE INDEX record_reminder ON record (company, at, seq) WHERE kind = 'reminder';
CREATE INDEX record_supersedes ON record (supersedes) WHERE supersedes != '';

CREATE TABLE wake (
  scope TEXT PRIMARY KEY,
  at    INTEGER NOT NULL
) STRICT;
CREATE INDEX wake_at ON wake (at);

CREATE TABLE meta (
  name  TEXT PRIMARY KEY,
  value TEXT NOT NULL
) STRICT;

CREATE TABLE outbox (
  seq        INTEGER PRIMARY KEY AUTOINCREMENT, -- the order of sending within a room
  key        TEXT NOT NULL UNIQUE,              -- the deed: never twice
  backend    TEXT NOT NULL,
  room       TEXT NOT NULL,
  thread     TEXT NOT NULL, -- as resolved when it was claimed
  under      TEXT NOT NULL,
  edits      TEXT NOT NULL,
  state      TEXT NOT NULL DEFAULT 'ready' CHECK (state IN
    ('ready', 'sending', 'sent', 'refused', 'uncertain', 'overtaken', 'dropped')),
  doubt      INTEGER NOT NULL DEFAULT 0, -- sending, and may have arrived
  ref        TEXT NOT NULL DEFAULT '',
  reason     TEXT NOT NULL DEFAULT '',
  tries      INTEGER NOT NULL DEFAULT 0,
  queued_at  INTEGER NOT NULL,
  first_try  INTEGER NOT NULL DEFAULT 0,
  last_try   INTEGER NOT NULL DEFAULT 0,
  settled_at INTEGER NOT NULL DEFAULT 0,
  body       TEXT NOT NULL
) STRICT;
CREATE INDEX outbox_pending ON outbox (backend, room, state DESC, seq) WHERE state IN ('ready', 'sending');
CREATE INDEX outbox_edits ON outbox (edits) WHERE state = 'ready' AND edits != '';
CREATE INDEX outbox_ref ON outbox (backend, room, ref) WHERE ref != '' AND edits = '';
CREATE INDEX outbox_trouble ON outbox (state, seq) WHERE state IN ('refused', 'uncertain');

CREATE TABLE room (
  backend    TEXT NOT NULL,
  room       TEXT NOT NULL,
  not_before INTEGER NOT NULL, -- left alone until then
  PRIMARY KEY (backend, room)
) STRICT, WITHOUT ROWID;

-- +goose Down
DROP TABLE room;
DROP TABLE outbox;
DROP TABLE meta;
DROP TABLE wake;
DROP TABLE record;
DROP TABLE defect;
DROP TABLE item;
DROP TABLE standing;
DROP TABLE cursor;
DROP TABLE inbox;
