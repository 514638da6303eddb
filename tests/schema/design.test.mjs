// The design's JSON Schema against the examples that the program's own reader is tested on too
// (tests/design/schema_test.cpp): both must accept valid/, both refuse invalid/shape/, and invalid/sense/ holds what only
// the reader can know.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import test from 'node:test';
import { fileURLToPath } from 'node:url';
import Ajv2020 from 'ajv/dist/2020.js';
import { parse } from 'smol-toml';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const schema = JSON.parse(readFileSync(join(root, 'schema', 'design.schema.json'), 'utf8'));
const validate = new Ajv2020({ allErrors: true, strict: true, strictRequired: false }).compile(schema);

/** The TOML file as JSON has it: dates are texts, an infinite number is nothing. */
function design(path) {
  return JSON.parse(JSON.stringify(parse(readFileSync(path, 'utf8'))));
}

function designsIn(...folder) {
  const path = join(root, ...folder);
  const files = readdirSync(path).filter((name) => name.endsWith('.toml')).map((name) => join(path, name));
  assert.ok(files.length > 0, `${path} holds examples`);
  return files;
}

const shipped = readdirSync(join(root, 'examples')).map((name) => join(root, 'examples', name, 'roof.toml'));
const valid = [...designsIn('schema', 'valid'), ...shipped];
const badShape = designsIn('schema', 'invalid', 'shape');
const badSense = designsIn('schema', 'invalid', 'sense');

for (const path of valid) {
  test(`accepts ${path.slice(root.length + 1)}`, () => {
    assert.ok(validate(design(path)), JSON.stringify(validate.errors, null, 1));
  });
}

for (const path of badShape) {
  test(`refuses ${path.slice(root.length + 1)}`, () => {
    assert.equal(validate(design(path)), false);
  });
}

for (const path of badSense) {
  test(`cannot know what is wrong in ${path.slice(root.length + 1)}`, () => {
    assert.ok(validate(design(path)), JSON.stringify(validate.errors, null, 1));
  });
}

/** Every property of every object of the schema, as pointer/key. */
function* propertiesOf(node, pointer) {
  if (node === null || typeof node !== 'object') return;
  if (node.properties && node.additionalProperties === false) {
    for (const key of Object.keys(node.properties)) yield `${pointer}/${key}`;
  }
  for (const [key, child] of Object.entries(node)) yield* propertiesOf(child, `${pointer}/${key}`);
}

/** The same of what a design uses: follows the schema beside the design. */
function use(node, value, pointer, used) {
  if (node.$ref) {
    const name = node.$ref.slice('#/$defs/'.length);
    use(schema.$defs[name], value, `/$defs/${name}`, used);
    return;
  }
  (node.oneOf ?? []).forEach((choice, i) => use(choice, value, `${pointer}/oneOf/${i}`, used));
  if (Array.isArray(value)) {
    if (node.items) for (const item of value) use(node.items, item, `${pointer}/items`, used);
  } else if (value !== null && typeof value === 'object') {
    for (const [key, child] of Object.entries(value)) {
      const property = node.properties?.[key];
      if (!property) continue;
      used.add(`${pointer}/${key}`);
      use(property, child, `${pointer}/properties/${key}`, used);
    }
  }
}

test('every key of the schema stands in some valid example, so the reader knows it', () => {
  const used = new Set();
  for (const path of valid) use(schema, design(path), '', used);
  // The parts of a range are the same for every figure: one that is used stands for all.
  const parts = ['low', 'likely', 'high', 'source', 'certainty'];
  const isPart = (pointer) => pointer.includes('/oneOf/') && parts.includes(pointer.split('/').at(-1));
  for (const part of parts) assert.ok([...used].some((pointer) => isPart(pointer) && pointer.endsWith(`/${part}`)), part);
  const unused = [...propertiesOf(schema, '')].filter((pointer) => !used.has(pointer) && !isPart(pointer));
  assert.deepEqual(unused, []);
});

const program = process.env.HOUSELEEK ?? '';
const skip = existsSync(program) ? false : 'no program at $HOUSELEEK';

/** Exit code and document of `check --json`. */
function check(path) {
  const ran = spawnSync(program, ['check', path, '--json'], { cwd: root, encoding: 'utf8' });
  return { code: ran.status, document: JSON.parse(ran.stdout) };
}

test('the program accepts and refuses the same, and answers by its schema', { skip }, () => {
  const answerSchema = JSON.parse(readFileSync(join(root, 'schema', 'check.schema.json'), 'utf8'));
  const isAnswer = new Ajv2020({ allErrors: true, strict: true, strictTypes: false, strictRequired: false }).compile(answerSchema);
  for (const [paths, code] of [[valid, 0], [badShape, 1], [badSense, 1]]) {
    for (const path of paths) {
      const answer = check(path);
      assert.equal(answer.code, code, path);
      assert.equal(answer.document.is_valid, code === 0, path);
      assert.ok(isAnswer(answer.document), `${path}: ${JSON.stringify(isAnswer.errors, null, 1)}`);
    }
  }
});
