-- Times are milliseconds since 1970, UTC. One database may hold many rigs.
CREATE TABLE rig (
    id     BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
    name   TEXT NOT NULL UNIQUE,
    thinned BIGINT NOT NULL  -- raw live values before this were thinned out
);

-- body is the whole reading as JSON, crc its checksum; the other columns repeat
-- what is searched by.
CREATE TABLE reading (
    rig     BIGINT NOT NULL,
    id      TEXT   NOT NULL,
    version BIGINT NOT NULL,
    taken   BIGINT NOT NULL,
    gone    BIGINT NOT NULL,
    body    TEXT   NOT NULL,
    crc     BIGINT NOT NULL,
    PRIMARY KEY (rig, id, version)
);

CREATE TABLE meter (
    rig  BIGINT NOT NULL,
    name TEXT   NOT NULL,
    body TEXT   NOT NULL,
    crc  BIGINT NOT NULL,
    PRIMARY KEY (rig, name)
);

CREATE TABLE done (
    rig  BIGINT NOT NULL,
    id   TEXT   NOT NULL,
    at   BIGINT NOT NULL,
    body TEXT   NOT NULL,
    crc  BIGINT NOT NULL,
    PRIMARY KEY (rig, id)
);

CREATE TABLE series (
    id   BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
    rig  BIGINT NOT NULL,
    name TEXT   NOT NULL,
    UNIQUE (rig, name)
);

-- Live values, packed: kind 0 is an hour of raw values, 1 an hour of minutes, 2 a
-- day of hours, 3 sixty-four days of days; slot counts these since 1970. The key
-- puts what is written at the same time on the same page.
CREATE TABLE chunk (
    rig    BIGINT NOT NULL,
    kind   BIGINT NOT NULL,
    slot   BIGINT NOT NULL,
    series BIGINT NOT NULL,
    data   BYTEA  NOT NULL,
    PRIMARY KEY (rig, kind, slot, series)
) WITHOUT ROWID;
