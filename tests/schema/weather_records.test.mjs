// Open weather records (npm package vega-datasets: station records and normals of Seattle, [noaa_seattle], and New York,
// [noaa_new_york]): how they are imported, what the generator's wet days are beside four recorded years, and how far their
// months scattered.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import test from 'node:test';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const data = (name) => readFileSync(join(root, 'node_modules', 'vega-datasets', 'data', name), 'utf8');
const program = process.env.HOUSELEEK ?? '';
const skip = existsSync(program) ? false : 'no program at $HOUSELEEK';

const site = `[site]
latitude_deg = 47.6
longitude_deg = -122.3
elevation_m = 50
time_zone = "America/Los_Angeles"
`;
const house = `[roof]
outline = [[0, 0], [3, 0], [3, 3], [0, 3]]
finish = "terracotta tiles"
[[roof.deck]]
material = "reinforced concrete"
thickness_mm = 120
[[room]]
name = "garage"
outline = [[0, 0], [3, 0], [3, 3], [0, 3]]
`;

function weather(climate, files = {}, ...args) {
  const folder = mkdtempSync(join(tmpdir(), 'houseleek-'));
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  const design = join(folder, 'roof.toml');
  writeFileSync(design, `format = 1\n${site}${climate}${house}`);
  const ran = spawnSync(program, ['weather', design, '--json', ...args.map((arg) => arg.replace('FOLDER', folder))], {
    encoding: 'utf8',
    maxBuffer: 1 << 26,
  });
  return { code: ran.status, stderr: ran.stderr, document: JSON.parse(ran.stdout), folder };
}

test('a daily record is refused with what is needed', { skip }, () => {
  const daily = data('seattle-weather.csv');
  const climate = `[climate]
file = "w.csv"
[climate.columns]
air_temperature = {name = "temp_max", unit = "degC"}
rain = {name = "precipitation", unit = "mm"}
`;
  const answer = weather(climate, { 'w.csv': daily });
  assert.equal(answer.code, 1);
  assert.deepEqual(answer.document.issues.map((issue) => issue.message), [
    'the file has one row a day or fewer; the hours of a day are needed',
  ]);
  assert.match(answer.document.issues[0].hint, /\[climate\.normals\]/);
});

test('hourly normals are imported once rain and clock are said', { skip }, () => {
  const hourly = data('seattle-weather-hourly-normals.csv').trimEnd();
  const open = weather('[climate]\nfile = "w.csv"\n', { 'w.csv': hourly });
  assert.equal(open.code, 1);
  assert.deepEqual(open.document.issues.map((issue) => issue.path), ['rain_mm']);
  const rainy = hourly.split('\n').map((line, i) => line + (i === 0 ? ',rain_mm' : ',0.1')).join('\n');
  const asked = weather('[climate]\nfile = "w.csv"\n', { 'w.csv': rainy });
  assert.equal(asked.code, 1);
  assert.deepEqual(asked.document.issues.map((issue) => issue.path), ['climate.layout.clock']);
  const climate = `[climate]
file = "w.csv"
[climate.layout]
clock = "standard"
stamps = "start"
[climate.columns]
wind = {name = "wind", unit = "m/s"}
`;
  const read = weather(climate, { 'w.csv': rainy });
  assert.equal(read.code, 0, read.stderr);
  assert.deepEqual(read.document.file.gaps, [{ name: 'time', filled_h: 1 }], 'the first hour of the year');
  assert.deepEqual(read.document.file.unused_columns, ['pressure']);
  const estimated = read.document.file.estimated.map((one) => one.name);
  assert.ok(estimated.includes('global_w_per_m2') && estimated.includes('vapour_pressure_pa'), estimated.join());
  // July's mean of the file itself.
  const july = hourly.split('\n').filter((line) => line.startsWith('2010-07')).map((line) => Number(line.split(',')[2]));
  const mean = july.reduce((a, b) => a + b) / july.length;
  assert.ok(Math.abs(read.document.months.mean_c[6] - mean) < 1e-9);
});

/** Wet days month by month: [month of the day, rain]. */
function statistics(days) {
  const month = Array.from({ length: 12 }, () => ({ n: 0, wet: 0, afterDry: 0, afterWet: 0, nDry: 0, nWet: 0 }));
  const amounts = [];
  for (let i = 0; i < days.length; ++i) {
    const [m, rain] = days[i];
    const isWet = rain >= 0.1;
    month[m].n += 1;
    month[m].wet += isWet ? 1 : 0;
    if (isWet) amounts.push(rain);
    if (i === 0) continue;
    const wasWet = days[i - 1][1] >= 0.1;
    month[m][wasWet ? 'nWet' : 'nDry'] += 1;
    if (isWet) month[m][wasWet ? 'afterWet' : 'afterDry'] += 1;
  }
  // Lag of the chain inside months, each weighted by its days.
  const lag = month.reduce((sum, one) => sum + (one.n / days.length) * (one.afterWet / one.nWet - one.afterDry / one.nDry), 0);
  const mean = amounts.reduce((a, b) => a + b, 0) / amounts.length;
  const variance = amounts.reduce((sum, x) => sum + (x - mean) ** 2, 0) / amounts.length;
  return {
    wetDaysAYear: (365.25 * amounts.length) / days.length,
    lag,
    meanOfWetDay: mean,
    shape: (mean * mean) / variance,
    above20: amounts.filter((x) => x > 20).length / amounts.length,
  };
}

test('wet days of twenty made years beside four recorded ones', { skip }, (t) => {
  const rows = data('seattle-weather.csv').trimEnd().split('\n').slice(1).map((line) => line.split(','));
  const record = rows.map(([date, rain]) => [Number(date.slice(5, 7)) - 1, Number(rain)]);
  const means = (column) =>
    Array.from({ length: 12 }, (_, m) => {
      const ofMonth = rows.filter((row) => Number(row[0].slice(5, 7)) - 1 === m).map((row) => Number(row[column]));
      return ofMonth.reduce((a, b) => a + b) / ofMonth.length;
    });
  const nYears = 4;
  const sums = (count) =>
    Array.from({ length: 12 }, (_, m) => record.filter(([month]) => month === m).reduce((sum, [, x]) => sum + count(x), 0) / nYears);
  const list = (values) => `[${values.map((value) => value.toFixed(3)).join(', ')}]`;
  const made = [];
  for (let seed = 0; seed < 20; ++seed) {
    const climate = `[climate]
seed = ${seed}
[climate.normals]
max_c = ${list(means(2))}
min_c = ${list(means(3))}
rain_mm = ${list(sums((x) => x))}
rain_days = ${list(sums((x) => (x >= 0.1 ? 1 : 0)))}
`;
    const answer = weather(climate, {}, '--csv', 'FOLDER/hours.csv');
    assert.equal(answer.code, 0, answer.stderr);
    const hours = readFileSync(join(answer.folder, 'hours.csv'), 'utf8').trimEnd().split('\n').slice(1);
    for (let day = 0; day < 365; ++day) {
      let rain = 0;
      for (const line of hours.slice(24 * day, 24 * day + 24)) {
        for (const part of line.split(',').slice(-6)) rain += Number(part);
      }
      made.push([Number(hours[24 * day].slice(5, 7)) - 1, rain]);
    }
  }
  const there = statistics(record);
  const here = statistics(made);
  for (const key of Object.keys(there)) t.diagnostic(`${key}: recorded ${there[key].toFixed(3)}, made ${here[key].toFixed(3)}`);
  // Three standard errors: of 20 made years for the count (one year's sd is 10 days), of 4 recorded years for the rest.
  assert.ok(Math.abs(here.wetDaysAYear - there.wetDaysAYear) < (3 * 10) / Math.sqrt(20));
  assert.ok(Math.abs(here.meanOfWetDay - there.meanOfWetDay) < 0.05 * there.meanOfWetDay, 'rain and rain days are given');
  assert.ok(Math.abs(here.above20 - there.above20) < 3 * Math.sqrt((there.above20 * (1 - there.above20)) / 623));
  assert.ok(Math.abs(here.lag - 0.25) < 0.03, 'the rule of [geng1986] comes out');
});

test('how far recorded months scattered, as tests/reference/generator_months_test.cpp has it', (t) => {
  const rows = data('weather.csv').trimEnd().split('\n').slice(1).map((line) => line.split(','));
  const mean = (values) => values.reduce((a, b) => a + b) / values.length;
  const sum = (values) => values.reduce((a, b) => a + b, 0);
  const variance = (values) => sum(values.map((x) => (x - mean(values)) ** 2)) / (values.length - 1);
  /** Root of the mean variance of the twelve months, each of four years. */
  const scatter = (city, ofDay, ofMonth) => {
    const months = Array.from({ length: 12 }, (_, m) =>
      [2012, 2013, 2014, 2015].map((year) => {
        const date = `${year}-${String(m + 1).padStart(2, '0')}`;
        return ofMonth(rows.filter((row) => row[0] === city && row[1].startsWith(date)).map(ofDay));
      }),
    );
    return Math.sqrt(mean(months.map(variance)));
  };
  const wanted = { Seattle: [1.429, 55.6, 3.72, 0.428], 'New York': [1.96, 44.3, 2.86, 0.363] };
  for (const [city, [temperature, rain, wetDays, wind]] of Object.entries(wanted)) {
    const got = [
      scatter(city, (row) => (Number(row[3]) + Number(row[4])) / 2, mean),
      scatter(city, (row) => Number(row[2]), sum),
      scatter(city, (row) => (Number(row[2]) >= 0.1 ? 1 : 0), sum),
      scatter(city, (row) => Number(row[5]), mean),
    ];
    t.diagnostic(`${city}: ${got.map((value) => value.toFixed(3)).join(', ')}`);
    [temperature, rain, wetDays, wind].forEach((figure, i) => {
      assert.ok(Math.abs(got[i] - figure) < 0.002 * figure, `${city} ${i}: ${got[i]}, not ${figure}`);
    });
  }
});
