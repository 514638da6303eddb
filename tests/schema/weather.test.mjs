// `houseleek weather --json` against its JSON Schema, from normals and from files; and a refusal with its places.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import test from 'node:test';
import { fileURLToPath } from 'node:url';
import Ajv2020 from 'ajv/dist/2020.js';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const compile = (name) =>
  new Ajv2020({ allErrors: true, strict: true, strictTypes: false, strictRequired: false }).compile(
    JSON.parse(readFileSync(join(root, 'schema', name), 'utf8')),
  );
const isWeather = compile('weather.schema.json');
const isRefusal = compile('issues.schema.json');

const program = process.env.HOUSELEEK ?? '';
const skip = existsSync(program) ? false : 'no program at $HOUSELEEK';
const house = join(root, 'examples', '01-terrace-house', 'roof.toml');

function weather(...args) {
  const ran = spawnSync(program, ['weather', ...args, '--json'], { cwd: root, encoding: 'utf8', maxBuffer: 1 << 26 });
  return { code: ran.status, stderr: ran.stderr, document: JSON.parse(ran.stdout) };
}

/** The example's design with its weather from a file beside it, and normals to compare with. */
function withFile(layout) {
  const folder = mkdtempSync(join(tmpdir(), 'houseleek-'));
  const hours = join(folder, 'hours.csv');
  const made = weather(house, '--csv', hours);
  const design = join(folder, 'roof.toml');
  const text = readFileSync(house, 'utf8').replace('[climate]\n', `[climate]\nfile = "hours.csv"\n${layout}`);
  writeFileSync(design, text);
  return { made, design, hours };
}

/** Every node of a document with its parent, its key and its path. */
function* nodes(parent, path = '') {
  for (const [key, value] of Object.entries(parent)) {
    const here = `${path}/${key}`;
    yield { parent, key, path: here };
    if (value !== null && typeof value === 'object') yield* nodes(value, here);
  }
}

test('a made year, and the same year from its own file', { skip }, () => {
  const { made, design } = withFile('');
  assert.equal(made.code, 0, made.stderr);
  assert.ok(isWeather(made.document), JSON.stringify(isWeather.errors?.slice(0, 3), null, 1));
  assert.equal(made.document.file, null);
  const read = weather(design);
  assert.equal(read.code, 0, read.stderr);
  assert.ok(isWeather(read.document), JSON.stringify(isWeather.errors?.slice(0, 3), null, 1));
  assert.deepEqual(read.document.months, made.document.months);
  assert.deepEqual(read.document.normals, made.document.normals);
  assert.match(read.document.range_statement, /one year/);
  assert.deepEqual(read.document.file.estimated, []);
  for (const about of ['delimiter', 'decimal mark', 'clock', 'stamps', 'year', 'step']) {
    assert.ok(read.document.file.findings.some((one) => one.about === about), about);
  }
  // The schema sees a missing, misspelt or wrong field.
  const wrong = [];
  for (const { parent, key, path } of nodes(read.document)) {
    const value = parent[key];
    parent[key] = { not: 'this' };
    if (isWeather(read.document)) wrong.push(`another kind at ${path}`);
    if (!Array.isArray(parent)) {
      delete parent[key];
      if (isWeather(read.document)) wrong.push(`without ${path}`);
    }
    parent[key] = value;
  }
  assert.deepEqual(wrong, []);
});

test('a file in decimal commas with a column gone says what was told and what is estimated', { skip }, () => {
  const { design, hours } = withFile('');
  const lines = readFileSync(hours, 'utf8').trimEnd().split('\n');
  const kept = lines.map((line, i) => {
    const fields = line.split(',');
    const rain = fields.slice(-6).reduce((sum, field) => sum + Number(field), 0);
    const [time, temperature, , , , global] = fields;
    if (i === 0) return 'Zeit;Temperatur [°C];Globalstrahlung [W/m²];Niederschlag [mm]';
    return [time, temperature, global, String(rain)].join(';').replaceAll('.', ',');
  });
  writeFileSync(hours, `# a station\n${kept.join('\n')}\n`);
  const text = readFileSync(design, 'utf8');
  writeFileSync(design, text.replace('[climate.normals]', '[climate.layout]\nclock = "standard"\n[climate.normals]'));
  const read = weather(design);
  assert.equal(read.code, 0, read.stderr);
  assert.ok(isWeather(read.document), JSON.stringify(isWeather.errors?.slice(0, 3), null, 1));
  const told = Object.fromEntries(read.document.file.findings.map((one) => [one.about, one.is]));
  assert.equal(told.delimiter, 'semicolon');
  assert.equal(told['decimal mark'], 'comma');
  assert.equal(told.stamps, "start of the row's time");
  assert.deepEqual(
    read.document.file.estimated.map((one) => one.name).sort(),
    ['diffuse_w_per_m2', 'sky_longwave_w_per_m2', 'vapour_pressure_pa', 'wind_m_per_s'],
  );
});

test('a long gap is refused with its place', { skip }, () => {
  const { design, hours } = withFile('');
  const lines = readFileSync(hours, 'utf8').split('\n');
  lines.splice(1000, 5);
  writeFileSync(hours, lines.join('\n'));
  const read = weather(design);
  assert.equal(read.code, 1);
  assert.ok(isRefusal(read.document), JSON.stringify(isRefusal.errors, null, 1));
  assert.equal(read.document.issues.length, 1);
  assert.equal(read.document.issues[0].line, 1001);
  assert.match(read.document.issues[0].message, /no rows for 5 hours/);
});
