// `houseleek order --json` against its JSON Schema: steps with and without money, a field too many, a refusal.
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
const isOrder = compile('order.schema.json');
const isRefusal = compile('issues.schema.json');

const program = process.env.HOUSELEEK ?? '';
const skip = existsSync(program) ? false : 'no program at $HOUSELEEK';
const house = join('examples', '01-terrace-house', 'roof.toml');

function order(...args) {
  const ran = spawnSync(program, ['order', ...args, '--json'], { cwd: root, encoding: 'utf8', maxBuffer: 1 << 26 });
  return { code: ran.status, stderr: ran.stderr, document: ran.stdout === '' ? null : JSON.parse(ran.stdout) };
}

test('the order of the terrace house is valid, and no change of its shape is', { skip }, () => {
  const answer = order(house, '--budget', '60', '--seasons', '2');
  assert.equal(answer.code, 0, answer.stderr);
  const { document } = answer;
  assert.ok(isOrder(document), JSON.stringify(isOrder.errors?.slice(0, 3), null, 1));
  assert.ok(document.order.length > 0);
  let spent = 0;
  for (const step of document.order) {
    spent += step.cost;
    assert.ok(spent <= 60 * step.season + 1e-9, 'within the money that has come');
  }
  for (const holder of [document, document.about, document.order[0]]) {
    holder.misspelt_field = 1;
    assert.ok(!isOrder(document));
    delete holder.misspelt_field;
  }
  delete document.about.load_statement;
  assert.ok(!isOrder(document));
});

test('a description that is refused, a place that is none', { skip }, () => {
  const path = join(mkdtempSync(join(tmpdir(), 'houseleek-')), 'roof.toml');
  writeFileSync(path, readFileSync(join(root, house), 'utf8').replace('thickness_mm = 50 ', 'thickness_mm = -50 '));
  const refused = order(path, '--budget', '60');
  assert.equal(refused.code, 1);
  assert.ok(isRefusal(refused.document), JSON.stringify(isRefusal.errors, null, 1));
  const nowhere = order(house, '--budget', '60', '--pin', 'Z99');
  assert.equal(nowhere.code, 2);
  assert.match(nowhere.stderr, /no place on this roof/);
  assert.equal(order(house).code, 2, 'a budget is needed');
});
