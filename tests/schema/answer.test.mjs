// Answers of the program against their JSON Schemas: what it prints is valid, and the schema is tight enough to see a field
// that is missing, misspelt, of the wrong kind, or without its range.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import test from 'node:test';
import { fileURLToPath } from 'node:url';
import Ajv2020 from 'ajv/dist/2020.js';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const read = (name) => JSON.parse(readFileSync(join(root, 'schema', name), 'utf8'));
const compile = (name) =>
  new Ajv2020({ allErrors: true, strict: true, strictTypes: false, strictRequired: false }).compile(read(name));
const isStudy = compile('study.schema.json');
const isRefusal = compile('issues.schema.json');

const program = process.env.HOUSELEEK ?? '';
const skip = existsSync(program) ? false : 'no program at $HOUSELEEK';
const house = join('examples', '01-terrace-house', 'roof.toml');

function study(path) {
  const ran = spawnSync(program, ['study', path, '--json'], { cwd: root, encoding: 'utf8', maxBuffer: 1 << 26 });
  return { code: ran.status, stderr: ran.stderr, document: JSON.parse(ran.stdout) };
}

/** Every node of a document with its parent, its key and its path. */
function* nodes(parent, path = '') {
  for (const [key, value] of Object.entries(parent)) {
    const here = `${path}/${key}`;
    yield { parent, key, value, path: here };
    if (value !== null && typeof value === 'object') yield* nodes(value, here);
  }
}

/** The first item of every list; the others are alike. */
function thinned(node) {
  if (Array.isArray(node)) return node.length === 12 || node.length === 6 ? node.map(thinned) : node.slice(0, 1).map(thinned);
  if (node === null || typeof node !== 'object') return node;
  return Object.fromEntries(Object.entries(node).map(([key, value]) => [key, thinned(value)]));
}

test('the answer of the terrace house is valid, and no change of its shape is', { skip }, () => {
  const answer = study(house);
  assert.equal(answer.code, 0, answer.stderr);
  assert.ok(isStudy(answer.document), JSON.stringify(isStudy.errors?.slice(0, 3), null, 1));

  const small = thinned(answer.document);
  for (const list of ['summer_months', 'winter_months']) small.weather[list] = answer.document.weather[list];
  assert.ok(isStudy(small), JSON.stringify(isStudy.errors?.slice(0, 3), null, 1));
  const wrong = [];
  for (const { parent, key, value, path } of nodes(small)) {
    const isList = Array.isArray(parent);
    if (!isList && key !== 'night') {
      delete parent[key];
      if (isStudy(small)) wrong.push(`without ${path}`);
    }
    parent[key] = typeof value === 'object' && value !== null ? 'a text' : { not: 'this' };
    if (isStudy(small)) wrong.push(`another kind at ${path}`);
    parent[key] = value;
    if (value !== null && typeof value === 'object' && !Array.isArray(value)) {
      value.misspelt_field = 1;
      if (isStudy(small)) wrong.push(`a field too many in ${path}`);
      delete value.misspelt_field;
    }
  }
  assert.deepEqual(wrong, []);
  assert.ok(isStudy(small), 'everything was put back');
});

test('a figure needs its range, or why it has none', { skip: false }, () => {
  const isFigure = new Ajv2020({ strict: true, strictTypes: false, strictRequired: false }).compile({
    ...read('study.schema.json').$defs.figure,
    $defs: read('study.schema.json').$defs,
  });
  for (const figure of [
    { value: 1, low: 0, high: 2, from: 'ends' },
    { value: 1, no_range_because: 'one year' },
    { value: null, why: 'no price' },
  ]) assert.ok(isFigure(figure), JSON.stringify(figure));
  for (const figure of [
    { value: 1 },
    { value: 1, low: 0 },
    { value: 1, low: 0, high: 2 },
    { value: 1, low: 0, high: 2, from: '' },
    { value: 1, low: 0, high: 2, from: 'ends', no_range_because: 'x' },
    { value: null },
    { value: null, no_range_because: 'x' },
    { value: '1', no_range_because: 'x' },
    1,
    null,
  ]) assert.ok(!isFigure(figure), JSON.stringify(figure));
});

test('issues instead of an answer, with their places', { skip }, () => {
  const folder = mkdtempSync(join(tmpdir(), 'houseleek-'));
  const text = readFileSync(join(root, house), 'utf8');
  const broken = {
    'cut.toml': text.slice(0, 1500),
    'negative.toml': text.replace(/thickness_mm = 50 /, 'thickness_mm = -50 '),
    // Only the weather finds this: more sunshine than the longest days have.
    'sunshine.toml': text.replace(/sunshine_h = \[140/, 'sunshine_h = [700'),
  };
  for (const [name, content] of Object.entries(broken)) {
    assert.notEqual(content, text, name);
    const path = join(folder, name);
    writeFileSync(path, content);
    const answer = study(path);
    assert.equal(answer.code, 1, name);
    assert.ok(isRefusal(answer.document), `${name}: ${JSON.stringify(isRefusal.errors, null, 1)}`);
    assert.ok(answer.document.issues.every((issue) => issue.line >= 1 && issue.file === path), name);
  }
});
