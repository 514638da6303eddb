// `water` and `week` with --json against their JSON Schemas, of a description and of a project; wrong wishes.
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
    JSON.parse(readFileSync(join(root, 'schema', `${name}.schema.json`), 'utf8')),
  );
const schemas = { water: compile('water'), week: compile('week'), issues: compile('issues') };

const program = process.env.HOUSELEEK ?? '';
const skip = existsSync(program) ? false : 'no program at $HOUSELEEK';
const everything = join(root, 'schema', 'valid', 'everything.toml');

function run(folder, code, ...args) {
  const ran = spawnSync(program, [...args, '--json'], { cwd: folder, encoding: 'utf8' });
  assert.equal(ran.status, code, ran.stderr);
  return JSON.parse(ran.stdout);
}

function isValid(name, document) {
  assert.ok(schemas[name](document), JSON.stringify(schemas[name].errors, null, 1));
}

test('of a description and of a project', { skip }, () => {
  const folder = mkdtempSync(join(tmpdir(), 'houseleek-'));
  isValid('water', run(folder, 0, 'water', everything, '--on', '2026-01-15', '--years', '1'));
  isValid('week', run(folder, 0, 'week', everything, '--on', '2026-01-15', '--gust', '80'));
  run(folder, 0, 'import', everything, '--to', 'a.houseleek');
  writeFileSync(
    join(folder, 'events.csv'),
    'kind,at,container,item,water_l,rain_mm,conductivity_ms_per_cm\nwatered,2026-01-10,trough,,5,,\n' +
      'rained,2026-01-12,,,,3,\nlooked_at,2026-01-09,,posidonia fibre,,,7.5\n',
  );
  run(folder, 0, 'import', 'events.csv', '--to', 'a.houseleek', '--events');
  const away = ['--away-from', '2026-01-16', '--away-to', '2026-01-30'];
  const salty = ['--salt', '2', '--rinse', 'posidonia fibre', '--rinse-to', '1.5'];
  const water = run(folder, 0, 'water', 'a.houseleek', '--on', '2026-01-15', '--years', '1', ...away, ...salty);
  isValid('water', water);
  assert.equal(water.salt.rinse.first_ms_per_cm, 7.5);
  assert.ok(water.holiday.visits.length > 3);
  isValid('week', run(folder, 0, 'week', 'a.houseleek', '--on', '2026-01-15'));
  const { round, ...without } = water;
  assert.ok(round && !schemas.water(without));
});

test('wrong wishes come back as issues', { skip }, () => {
  const folder = mkdtempSync(join(tmpdir(), 'houseleek-'));
  const refused = run(folder, 1, 'water', everything, '--max', '10', '--min', '20', '--can', '0', '--filled', 'soon');
  isValid('issues', refused);
  assert.equal(refused.issues.length, 3);
  isValid('issues', run(folder, 1, 'week', everything, '--gust', '0'));
});
