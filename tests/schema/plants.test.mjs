// `plants` with --json against its JSON Schema, with and without a logbook, and the examples in schema/answers.
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
const isPlants = compile('plants');
const isIssues = compile('issues');

const program = process.env.HOUSELEEK ?? '';
const skip = existsSync(program) ? false : 'no program at $HOUSELEEK';
const studio = join(root, 'examples', '02-garage-studio', 'roof.toml');

function run(folder, ...args) {
  const ran = spawnSync(program, [...args, '--json'], { cwd: folder, encoding: 'utf8' });
  assert.equal(ran.status, 0, ran.stderr);
  return JSON.parse(ran.stdout);
}

function isValid(document) {
  assert.ok(isPlants(document), JSON.stringify(isPlants.errors, null, 1));
}

test('examples of the answer', () => {
  const names = (kind) =>
    readdirSync(join(root, 'schema', 'answers', kind)).filter((name) => name.startsWith('plants.'));
  assert.ok(names('valid').length >= 1 && names('invalid').length >= 2);
  for (const name of names('valid')) {
    isValid(JSON.parse(readFileSync(join(root, 'schema', 'answers', 'valid', name), 'utf8')));
  }
  for (const name of names('invalid')) {
    assert.ok(!isPlants(JSON.parse(readFileSync(join(root, 'schema', 'answers', 'invalid', name), 'utf8'))), name);
  }
});

test('a description, a purpose, a plan of raising', { skip }, () => {
  const folder = mkdtempSync(join(tmpdir(), 'houseleek-'));
  const all = run(folder, 'plants', studio);
  isValid(all);
  assert.equal(all.raise, null);
  assert.equal(all.places.length, 2);
  const { counts, there } = all.places[0];
  // Every kind of the catalogue is in one of the four, or grows there.
  const kinds = counts.likely + counts.doubtful + counts.no + counts.refused + there.length;
  assert.equal(kinds, all.places[0].choices.length + there.length);
  assert.ok(kinds > 100);
  const bees = run(folder, 'plants', studio, '--for', 'bees', '--recipe', 'herb bed');
  isValid(bees);
  assert.equal(bees.places.length, 1);
  assert.ok(bees.places[0].choices.every((one) => one.serves.some((service) => service.purpose === 'bees')));
  const raised = run(folder, 'plants', studio, '--plant', 'creeping thyme', '--raise', '64', '--by', '2027-10-01');
  isValid(raised);
  assert.equal(raised.raise.plant, 'Thymus serpyllum');
  // Shape is watched: what has no place in the schema, or is missing, is refused.
  assert.ok(!isPlants({ ...all, more: 1 }));
  assert.ok(!isPlants({ ...all, coldest_night_c: -20 }));
  const { lists, ...without } = all;
  assert.ok(lists && !isPlants(without));
});

test('a project with batches', { skip }, () => {
  const folder = mkdtempSync(join(tmpdir(), 'houseleek-'));
  run(folder, 'import', studio, '--to', 'a.houseleek');
  writeFileSync(
    join(folder, 'events.csv'),
    'kind,at,batch,count,item\n' +
      'sown,2026-03-01,holm oaks from acorns,40,\ngerminated,2026-05-01,holm oaks from acorns,22,\n' +
      'ready,2026-05-02,never sown,5,\nsown,2026-03-05,tray 3,30,Sedum album\n',
  );
  run(folder, 'import', 'events.csv', '--to', 'a.houseleek', '--events');
  const answer = run(folder, 'plants', 'a.houseleek', '--on', '2026-06-01');
  isValid(answer);
  assert.equal(answer.batches.length, 2);
  assert.equal(answer.batches[0].plant, 'Quercus ilex');
  assert.equal(answer.batches[0].n_standing, 22);
  assert.ok(answer.batches[0].leave_roof);
  assert.equal(answer.batches[1].plant, 'Sedum album');
  assert.equal(answer.left_out.length, 1);
  assert.ok(answer.due.length >= 2);
});

test('words that nothing answers to', { skip }, () => {
  const ran = spawnSync(program, ['plants', studio, '--for', 'fun', '--plant', 'Sedum albun', '--json'], {
    encoding: 'utf8',
  });
  assert.equal(ran.status, 1);
  const document = JSON.parse(ran.stdout);
  assert.ok(isIssues(document), JSON.stringify(isIssues.errors));
  assert.deepEqual(
    document.issues.map((issue) => issue.path),
    ['for', 'plant'],
  );
  assert.match(document.issues[1].hint, /Sedum album/);
});
