// Starts `houseleek open` on a file of its own and asks its door; used by all tests of the page.
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import http from 'node:http';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';

export const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
export const program = process.env.HOUSELEEK ?? '';
export const skip = existsSync(program) ? false : 'no program at $HOUSELEEK';

export const newFolder = () => mkdtempSync(join(tmpdir(), 'houseleek-page-'));

// A small roof, so that a year of it takes well under a second. INVENTED.
export const smallRoof = `format = 1
name = "Small roof"
invented = true
[site]
latitude_deg = 38
longitude_deg = 22
elevation_m = 20
time_zone = "Europe/Athens"
[climate.normals]
max_c = [13, 14, 16, 20, 26, 31, 33, 33, 29, 24, 18, 15]
min_c = [6, 6, 7, 10, 14, 19, 21, 21, 18, 14, 10, 7]
rain_mm = [78, 66, 54, 32, 18, 8, 4, 6, 22, 62, 84, 96]
[roof]
outline = [[0, 0], [5, 0], [5, 4], [0, 4]]
north_deg = 0
fall_mm_per_m = 10
fall_towards_deg = 0
finish = "bitumen, weathered"
[[roof.deck]]
material = "bitumen felt"
thickness_mm = 8
[[roof.deck]]
material = "reinforced concrete"
thickness_mm = 140
[[roof.outlet]]
name = "outlet"
at = [2.5, 3.8]
diameter_mm = 80
[[room]]
name = "room"
outline = [[0, 0], [5, 0], [5, 4], [0, 4]]
[[recipe]]
name = "thin"  # a comment that must live on
length_mm = 1000
width_mm = 1000
placed = "raised"
spacer = { height_mm = 30, edges = "open" }
[[recipe.layer]]
role = "medium"
material = "light compost-perlite-coir mix"
thickness_mm = 50  # with a reason
[[recipe.layer]]
role = "core"
material = "horticultural mineral wool"
thickness_mm = 40
[[recipe.plant]]
name = "Sedum album"
[[patch]]
recipe = "thin"
columns = 2
rows = 1
origin = [0.6, 0.6]
spacing_mm = 20
`;

export function writeRoof(text = smallRoof, name = 'roof.toml') {
  const path = join(newFolder(), name);
  writeFileSync(path, text);
  return path;
}

/// A request byte for byte as it is wanted; fetch() would mend Host and Origin.
export function raw(port, { method = 'POST', path = '/', headers = {}, body = '' }) {
  return new Promise((resolve, reject) => {
    const request = http.request({ host: '127.0.0.1', port, method, path, headers, agent: false }, (response) => {
      let text = '';
      response.on('data', (part) => (text += part));
      response.on('end', () => resolve({ status: response.statusCode, headers: response.headers, text }));
    });
    request.on('error', reject);
    request.end(body);
  });
}

export async function open(file, ...options) {
  const child = spawn(program, ['open', file, '--no-browser', ...options], { stdio: ['ignore', 'pipe', 'pipe'] });
  let stderr = '';
  child.stderr.on('data', (part) => (stderr += part));
  const lines = createInterface({ input: child.stdout });
  const url = await Promise.race([
    once(lines, 'line').then(([line]) => line),
    once(child, 'exit').then(([code]) => {
      throw new Error(`houseleek open ended with ${code}: ${stderr}`);
    }),
  ]);
  const [address, token] = url.split('/#');
  const port = Number(address.split(':').pop());
  const headers = { 'Content-Type': 'application/json', 'X-Houseleek-Token': token };
  const ask = async (name, body = {}) => {
    const answer = await raw(port, { path: `/api/${name}`, headers, body: JSON.stringify(body) });
    return { status: answer.status, document: JSON.parse(answer.text) };
  };
  const end = async (signal) => {
    if (child.exitCode !== null || child.signalCode !== null) return;
    const gone = once(child, 'exit');
    child.kill(signal);
    await gone;
  };
  return { url, token, port, headers, child, ask, stop: () => end('SIGTERM'), kill: () => end('SIGKILL') };
}

export const read = (path) => readFileSync(path, 'utf8');
