// `log`, `import`, `export` and `trial` with --json against their JSON Schemas: what they print, the examples in schema/answers, and
// the same list of kinds and fields in the schema and in the program's tables.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
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
const schemas = Object.fromEntries(
  ['log', 'import', 'export', 'trial_plan', 'trial_read', 'trial_judge', 'trial_fit', 'water', 'week'].map((name) => [name, compile(name)]),
);
const isRefusal = compile('issues');

const program = process.env.HOUSELEEK ?? '';
const skip = existsSync(program) ? false : 'no program at $HOUSELEEK';
const house = join(root, 'examples', '01-terrace-house', 'roof.toml');

function run(folder, ...args) {
  const ran = spawnSync(program, [...args, '--json'], { cwd: folder, encoding: 'utf8' });
  return { code: ran.status, stderr: ran.stderr, document: ran.stdout === '' ? null : JSON.parse(ran.stdout) };
}

function isValid(document) {
  const validate = schemas[document.answer];
  assert.ok(validate(document), JSON.stringify(validate.errors, null, 1));
}

for (const [folder, expected] of [
  ['valid', true],
  ['invalid', false],
]) {
  const names = readdirSync(join(root, 'schema', 'answers', folder));
  for (const name of names) {
    test(`answers/${folder}/${name}`, () => {
      const document = JSON.parse(readFileSync(join(root, 'schema', 'answers', folder, name), 'utf8'));
      assert.equal(schemas[name.split('.')[0]](document), expected);
    });
  }
  test(`answers/${folder} has examples of each`, () => {
    for (const command of Object.keys(schemas)) assert.ok(names.some((name) => name.startsWith(`${command}.`)), command);
  });
}

test('what the program prints', { skip }, () => {
  const folder = mkdtempSync(join(tmpdir(), 'houseleek-'));
  const made = run(folder, 'import', house, '--to', 'a.houseleek');
  assert.equal(made.code, 0, made.stderr);
  isValid(made.document);
  assert.equal(made.document.is_new_project, true);
  const noted = run(folder, 'log', 'a.houseleek', 'watered', '--module', 'A1', '--water-l', '6');
  assert.equal(noted.code, 0, noted.stderr);
  isValid(noted.document);
  assert.equal(noted.document.events[0].water_l, 6);
  isValid(run(folder, 'log', 'a.houseleek', 'withdrawn', '--corrects', '1').document);
  writeFileSync(join(folder, 'a.csv'), 'time,temp (degC)\n2026-07-12T23:40Z,25\n2026-07-12T23:50Z,24\n');
  const read = run(folder, 'import', 'a.csv', '--to', 'a.houseleek', '--logger', 'south');
  assert.equal(read.code, 0, read.stderr);
  isValid(read.document);
  assert.equal(read.document.readings.n_added, 2);
  const all = run(folder, 'log', 'a.houseleek', '--all').document;
  isValid(all);
  assert.equal(all.n_events, 2);
  const out = run(folder, 'export', 'a.houseleek', '--tables', 'tables').document;
  isValid(out);
  assert.equal(out.revision.toml, readFileSync(house, 'utf8'));
  assert.ok(out.tables.every((table) => existsSync(join(folder, table.file))));
  for (const args of [
    ['log', 'a.houseleek', 'watered', '--water-l', 'six'],
    ['export', 'a.houseleek', '--revision', '9'],
    ['import', join(root, 'schema', 'invalid', 'shape', 'no-site.toml'), '--to', 'a.houseleek'],
  ]) {
    const refused = run(folder, ...args);
    assert.equal(refused.code, 1);
    assert.ok(isRefusal(refused.document), JSON.stringify(isRefusal.errors, null, 1));
  }
});

test('what trials print', { skip }, () => {
  const folder = mkdtempSync(join(tmpdir(), 'houseleek-'));
  const least = readFileSync(join(root, 'schema', 'valid', 'least.toml'), 'utf8');
  const trial = `
[[trial]]
name = "painted or not"
wanted_difference = 2
first_day = 2026-06-01
last_day = 2026-06-14
[[trial.side]]
name = "painted"
[[trial.side]]
name = "bare"
recipe = "bare"
${['A1', 'A2', 'A3', 'A4', 'A5', 'A6'].map((name) => `[[trial.place]]\nname = "${name}"\n`).join('')}`;
  writeFileSync(join(folder, 'roof.toml'), least + trial);
  assert.equal(run(folder, 'import', 'roof.toml', '--to', 'a.houseleek').code, 0);
  const planned = run(folder, 'trial', 'plan', 'a.houseleek', '--modules', '3', '--keep');
  assert.equal(planned.code, 0, planned.stderr);
  isValid(planned.document);
  assert.equal(planned.document.revision, 2);
  isValid(run(folder, 'trial', 'read', 'a.houseleek').document);
  isValid(run(folder, 'trial', 'judge', 'a.houseleek').document);
  const rows = ['at,A1,A2,A3,A4,A5,A6'];
  for (let day = 1; day <= 14; ++day) {
    const date = `2026-06-${String(day).padStart(2, '0')}`;
    const values = (mean) => [0, 1, 2, 3, 4, 5].map((i) => (mean + i * 0.3 + ((day * 7 + i * 3) % 5) * 0.4).toFixed(1));
    rows.push(`${date}T06:00,${values(14)}`, `${date}T16:00,${values(30)}`);
  }
  writeFileSync(join(folder, 'june.csv'), `${rows.join('\n')}\n`);
  const read = run(folder, 'trial', 'read', 'a.houseleek', '--table', 'june.csv');
  assert.equal(read.code, 0, read.stderr);
  isValid(read.document);
  assert.equal(read.document.n_noted, 168);
  run(folder, 'log', 'a.houseleek', 'looked_at', '--module', 'A1', '--vigour', '4', '--at', '2026-06-10');
  run(folder, 'log', 'a.houseleek', 'looked_at', '--module', 'A2', '--vigour', '3', '--at', '2026-06-10');
  const judged = run(folder, 'trial', 'judge', 'a.houseleek');
  assert.equal(judged.code, 0, judged.stderr);
  isValid(judged.document);
  assert.equal(judged.document.measures[0].comparisons[0].about, 'recipes');
  const fitted = run(folder, 'trial', 'fit', 'a.houseleek', '--property', 'finish');
  assert.equal(fitted.code, 0, fitted.stderr);
  isValid(fitted.document);
  const refused = run(folder, 'trial', 'fit', 'a.houseleek', '--property', 'gap');
  assert.equal(refused.code, 1);
  assert.ok(isRefusal(refused.document), JSON.stringify(isRefusal.errors, null, 1));
});

test('the schema has the kinds and fields of the program', { skip }, () => {
  const help = spawnSync(program, ['log', '--help'], { encoding: 'utf8' }).stdout;
  const { properties } = JSON.parse(readFileSync(join(root, 'schema', 'log.schema.json'), 'utf8')).$defs.event;
  const options = [...help.matchAll(/^ +--([a-z0-9-]+)/gm)].map((match) => match[1].replaceAll('-', '_'));
  const others = ['corrects', 'since', 'all', 'json'];
  const own = ['number', 'noted_at', 'supersedes', 'superseded_by', 'kind', 'is_time_known', 'zone'];
  assert.deepEqual(
    options.filter((name) => !others.includes(name)).sort(),
    Object.keys(properties)
      .filter((name) => !own.includes(name))
      .sort(),
  );
  const kinds = [...help.matchAll(/^ {2}([a-z_]+) +\S/gm)].map((match) => match[1]);
  assert.deepEqual(kinds.filter((name) => properties.kind.enum.includes(name)).sort(), [...properties.kind.enum].sort());
});
