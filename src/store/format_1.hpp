// Format 1 of the project file. Never changed once a version with it has been released.
#pragma once
#include <string_view>

namespace houseleek::store {

/// Rows are only ever added: triggers refuse the rest. `sha256` is over all other fields of a row (store/row_hash.hpp),
/// for SQLite itself does not see a byte that has turned inside a text or a number.
inline constexpr std::string_view format_1 = R"sql(
-- A design as it was saved: its text, byte for byte.
CREATE TABLE revision (
  revision INTEGER PRIMARY KEY,
  saved_utc_s INTEGER NOT NULL,
  toml_text TEXT NOT NULL,
  note TEXT NOT NULL,
  sha256 TEXT NOT NULL
) STRICT;

-- The logbook. A correction is a new event that supersedes one other.
CREATE TABLE event (
  event INTEGER PRIMARY KEY,
  noted_utc_s INTEGER NOT NULL,
  supersedes INTEGER UNIQUE REFERENCES event,
  kind TEXT NOT NULL,
  at_utc_s INTEGER NOT NULL,
  at_offset_s INTEGER NOT NULL,
  is_time_known INTEGER NOT NULL CHECK (is_time_known IN (0, 1)),
  zone TEXT NOT NULL,
  module TEXT,
  square TEXT,
  recipe TEXT,
  room TEXT,
  container TEXT,
  batch TEXT,
  part TEXT,
  item TEXT,
  condition TEXT,
  wetness TEXT,
  currency TEXT,
  photo TEXT,
  who TEXT,
  note TEXT,
  count REAL,
  water_l REAL,
  duration_min REAL,
  mass_kg REAL,
  volume_l REAL,
  length_m REAL,
  area_m2 REAL,
  depth_mm REAL,
  height_mm REAL,
  temperature_c REAL,
  conductivity_ms_per_cm REAL,
  vigour REAL,
  cover_percent REAL,
  cost REAL,
  energy_kwh REAL,
  volume_m3 REAL,
  gust_km_per_h REAL,
  rain_mm REAL,
  hail_mm REAL,
  first_day INTEGER,
  last_day INTEGER,
  sha256 TEXT NOT NULL,
  CHECK (supersedes < event),
  CHECK (kind <> 'withdrawn' OR supersedes IS NOT NULL),
  CHECK (cost IS NULL OR currency IS NOT NULL)
) STRICT;

-- What an engine answered, and all that is needed to make it again.
CREATE TABLE result (
  result INTEGER PRIMARY KEY,
  revision INTEGER NOT NULL REFERENCES revision,
  made_utc_s INTEGER NOT NULL,
  command TEXT NOT NULL,
  engine_version TEXT NOT NULL,
  options_json TEXT NOT NULL,
  seed TEXT NOT NULL,
  input_hash TEXT NOT NULL,
  answer_json TEXT NOT NULL,
  sha256 TEXT NOT NULL
) STRICT;

-- A column of a logger. The quantity's name ends in its unit: temperature_c.
CREATE TABLE sensor (
  sensor INTEGER PRIMARY KEY,
  name TEXT NOT NULL UNIQUE,
  quantity TEXT NOT NULL
) STRICT;

CREATE TABLE reading_file (
  reading_file INTEGER PRIMARY KEY,
  name TEXT NOT NULL,
  imported_utc_s INTEGER NOT NULL
) STRICT;

CREATE TABLE reading (
  sensor INTEGER NOT NULL REFERENCES sensor,
  at_utc_s INTEGER NOT NULL,
  value REAL NOT NULL,
  reading_file INTEGER NOT NULL REFERENCES reading_file,
  PRIMARY KEY (sensor, at_utc_s)
) STRICT, WITHOUT ROWID;

-- What came of a file, written when all of it was in: readings, those that were there before, and the sum of a hash of each,
-- modulo 2^64.
CREATE TABLE reading_file_end (
  reading_file INTEGER PRIMARY KEY REFERENCES reading_file,
  n_readings INTEGER NOT NULL,
  n_known_before INTEGER NOT NULL,
  sum_of_hashes INTEGER NOT NULL
) STRICT;

CREATE TRIGGER revision_stays BEFORE UPDATE ON revision BEGIN SELECT RAISE(ABORT, 'rows stay as they are'); END;
CREATE TRIGGER revision_is_kept BEFORE DELETE ON revision BEGIN SELECT RAISE(ABORT, 'rows are kept'); END;
CREATE TRIGGER event_stays BEFORE UPDATE ON event BEGIN SELECT RAISE(ABORT, 'rows stay as they are'); END;
CREATE TRIGGER event_is_kept BEFORE DELETE ON event BEGIN SELECT RAISE(ABORT, 'rows are kept'); END;
CREATE TRIGGER result_stays BEFORE UPDATE ON result BEGIN SELECT RAISE(ABORT, 'rows stay as they are'); END;
CREATE TRIGGER result_is_kept BEFORE DELETE ON result BEGIN SELECT RAISE(ABORT, 'rows are kept'); END;
CREATE TRIGGER reading_stays BEFORE UPDATE ON reading BEGIN SELECT RAISE(ABORT, 'rows stay as they are'); END;
CREATE TRIGGER reading_is_kept BEFORE DELETE ON reading BEGIN SELECT RAISE(ABORT, 'rows are kept'); END;
)sql";

}  // namespace houseleek::store
