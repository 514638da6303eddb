// Who may ask `houseleek open`: another host's name, another page, no token, too much, paths out of the page's files.
import assert from 'node:assert/strict';
import net from 'node:net';
import { networkInterfaces } from 'node:os';
import test, { after, before } from 'node:test';
import { open, raw, skip, writeRoof } from './program.mjs';

let server;
before(async () => {
  if (!skip) server = await open(writeRoof());
});
after(async () => server?.stop());

const asked = (headers, more = {}) =>
  raw(server.port, { path: '/api/state', headers: { ...server.headers, ...headers }, body: '{}', ...more });

test('with token, host and kind of document it answers', { skip }, async () => {
  assert.equal((await asked({})).status, 200);
  assert.equal((await asked({ Host: `localhost:${server.port}` })).status, 200);
  assert.equal((await asked({ Origin: `http://127.0.0.1:${server.port}` })).status, 200);
});

test('another name that leads here is refused', { skip }, async () => {
  for (const Host of ['example.test', `example.test:${server.port}`, '127.0.0.1', '127.0.0.1:1', `127.0.0.1.example.test:${server.port}`]) {
    assert.equal((await asked({ Host })).status, 403, Host);
    assert.equal((await raw(server.port, { method: 'GET', path: '/', headers: { Host } })).status, 403, Host);
  }
});

test('two Host headers are refused', { skip }, async () => {
  const text = await spoken(
    `POST /api/state HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nHost: example.test\r\nContent-Type: application/json\r\n` +
      `X-Houseleek-Token: ${server.token}\r\nContent-Length: 2\r\nConnection: close\r\n\r\n{}`);
  assert.match(text, /^HTTP\/1\.1 403 /);
});

test('another page is refused, and one without an origin of its own', { skip }, async () => {
  for (const Origin of ['http://example.test', 'null', `https://127.0.0.1:${server.port}`, 'http://127.0.0.1:1', `http://127.0.0.1:${server.port}.example.test`]) {
    assert.equal((await asked({ Origin })).status, 403, Origin);
  }
  assert.equal((await asked({ 'Sec-Fetch-Site': 'cross-site' })).status, 403);
  assert.equal((await asked({ 'Sec-Fetch-Site': 'same-site' })).status, 403);
});

test('without the token nothing of the roof is told', { skip }, async () => {
  for (const token of ['', 'x', server.token.slice(1), `${server.token}0`, server.token.replace(/^./, (c) => (c === '0' ? '1' : '0'))]) {
    const answer = await asked({ 'X-Houseleek-Token': token });
    assert.equal(answer.status, 401, token);
    assert.doesNotMatch(answer.text, /Small roof/);
  }
  for (const path of ['/', '/page.js', '/page.css', '/colours.css']) {
    const page = await raw(server.port, { method: 'GET', path });
    assert.equal(page.status, 200, path);
    assert.doesNotMatch(page.text, /Small roof/, path);
    assert.ok(!page.text.includes(server.token), path);
  }
});

test('only a POST of JSON is a question', { skip }, async () => {
  for (const method of ['GET', 'PUT', 'DELETE', 'OPTIONS']) assert.equal((await asked({}, { method })).status, 405, method);
  for (const type of ['text/plain', 'application/x-www-form-urlencoded', '']) {
    assert.equal((await asked({ 'Content-Type': type })).status, 415, type);
  }
  assert.equal((await asked({}, { body: '{"a":' })).status, 400);
  assert.equal((await asked({}, { body: '[]' })).status, 400);
  assert.equal((await asked({}, { path: '/api/unheard_of' })).status, 404);
});

test('too much is refused before it is read', { skip }, async () => {
  assert.equal((await asked({}, { path: '/api/edit', body: 'x'.repeat(3_000_000) }).catch((error) => ({ status: error.code === 'EPIPE' || error.code === 'ECONNRESET' ? 413 : error }))).status, 413);
  const declared = await spoken(
    `POST /api/edit HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nContent-Length: 99999999999\r\nConnection: close\r\n\r\n`);
  assert.match(declared, /^HTTP\/1\.1 413 /);
  const heads = await spoken(`GET / HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nX: ${'y'.repeat(40_000)}\r\n\r\n`);
  assert.match(heads, /^(HTTP\/1\.1 431 |$)/);
  assert.equal((await asked({})).status, 200, 'and it goes on');
});

test('no path of the disk can be asked for', { skip }, async () => {
  for (const path of ['/../../../../etc/passwd', '/%2e%2e/%2e%2e/etc/passwd', '//etc/passwd', '/page.js/../../roof.toml', '/roof.toml', '/api/../roof.toml', '/index.html%00.toml', '/?file=/etc/passwd']) {
    const text = await spoken(`GET ${path} HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nConnection: close\r\n\r\n`);
    assert.match(text, /^HTTP\/1\.1 40[0345] /, path);
    assert.doesNotMatch(text, /root:|format = 1/, path);
  }
});

test('what is served may load nothing from elsewhere and be framed by nobody', { skip }, async () => {
  const page = await raw(server.port, { method: 'GET', path: '/' });
  const policy = page.headers['content-security-policy'];
  for (const rule of ["default-src 'none'", "script-src 'self'", "frame-ancestors 'none'", "base-uri 'none'", "form-action 'none'"]) {
    assert.ok(policy.includes(rule), rule);
  }
  assert.doesNotMatch(policy, /unsafe/);
  assert.equal(page.headers['x-content-type-options'], 'nosniff');
  assert.equal(page.headers['cache-control'], 'no-store');
  assert.doesNotMatch(page.text, /https?:|<script(?![^>]*src)|style=/);
});

test('clients that drip hold up nobody', { skip }, async () => {
  const slow = Array.from({ length: 40 }, () => {
    const socket = net.connect(server.port, '127.0.0.1');
    socket.on('error', () => undefined);
    socket.write('POST /api/state HTTP/1.1\r\nHost: 127');
    return socket;
  });
  const begin = Date.now();
  assert.equal((await asked({})).status, 200);
  assert.ok(Date.now() - begin < 3000, `${Date.now() - begin} ms`);
  for (const socket of slow) socket.destroy();
});

// Another address of this machine stands for another machine's way in: a server bound to all of them answers there. Linux
// has the whole of 127.0.0.0/8 at hand, so there always is one.
test('nothing but 127.0.0.1 is listened on', { skip }, async () => {
  const outside = Object.values(networkInterfaces()).flat().filter((one) => one.family === 'IPv4' && !one.internal);
  for (const address of ['127.0.0.2', ...outside.map((one) => one.address)]) {
    const outcome = await new Promise((resolve) => {
      const socket = net.connect(server.port, address, () => resolve('connected'));
      socket.on('error', (error) => resolve(error.code));
      socket.setTimeout(3000, () => resolve('silent'));
    });
    assert.notEqual(outcome, 'connected', address);
  }
});

function spoken(text) {
  return new Promise((resolve) => {
    let answer = '';
    const socket = net.connect(server.port, '127.0.0.1', () => socket.write(text));
    socket.on('data', (part) => (answer += part));
    socket.on('close', () => resolve(answer));
    socket.on('error', () => undefined);
  });
}
