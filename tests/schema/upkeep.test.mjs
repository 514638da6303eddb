// `upkeep` and `import --events` with --json against their JSON Schemas, and the examples in schema/answers.
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
const isUpkeep = compile('upkeep');
const isImport = compile('import');

const program = process.env.HOUSELEEK ?? '';
const skip = existsSync(program) ? false : 'no program at $HOUSELEEK';
const house = join(root, 'examples', '01-terrace-house', 'roof.toml');

function run(folder, ...args) {
  const ran = spawnSync(program, [...args, '--json'], { cwd: folder, encoding: 'utf8' });
  assert.equal(ran.status, 0, ran.stderr);
  return JSON.parse(ran.stdout);
}

function isValid(validate, document) {
  assert.ok(validate(document), JSON.stringify(validate.errors, null, 1));
}

test('an empty logbook, and one with modules, a torn tie and a storm', { skip }, () => {
  const folder = mkdtempSync(join(tmpdir(), 'houseleek-'));
  run(folder, 'import', house, '--to', 'a.houseleek');
  isValid(isUpkeep, run(folder, 'upkeep', 'a.houseleek'));
  writeFileSync(
    join(folder, 'events.csv'),
    'kind,at,module,recipe,part,condition,gust_km_per_h\n' +
      'made,2024-03-01,A1,thin stonecrop,,,\nlooked_at,2024-09-01,A1,,,good,\nstorm,2025-02-25,,,,,90\n' +
      'replaced,2025-03-01,A1,,tie,torn,\nlooked_at,2025-03-01,A9,,,torn,\n',
  );
  const counts = run(folder, 'import', 'events.csv', '--to', 'a.houseleek', '--events');
  isValid(isImport, counts);
  assert.equal(counts.events.n_added, 5);
  const answer = run(folder, 'upkeep', 'a.houseleek', '--on', '2025-03-02');
  isValid(isUpkeep, answer);
  assert.equal(answer.parts.find((part) => part.part === 'tie').n_failures, 1);
  assert.equal(answer.storms.list[0].found_failed[0].n_parts, 1);
  assert.equal(answer.logbook.left_out.length, 1);
  assert.equal(answer.forecast.length, 12);
  // Shape is watched: what has no place in the schema, or is missing, is refused.
  assert.ok(!isUpkeep({ ...answer, more: 1 }));
  assert.ok(!isUpkeep({ ...answer, parts: [{ ...answer.parts[0], life_years: 3 }] }));
  const { storms, ...without } = answer;
  assert.ok(storms && !isUpkeep(without));
});
