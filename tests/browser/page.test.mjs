// The page in a browser: a new roof, an edit, a wrong one, undo, reload, a killed program, two windows, keyboard, every
// view looked over by axe-core, a thousand modules.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import test, { after, before } from 'node:test';
import { chromium } from 'playwright-core';
import { newFolder, open, program, read, skip as noProgram, smallRoof, writeRoof } from './program.mjs';

const executablePath = process.env.CHROMIUM ?? '/usr/bin/chromium';
const skip = noProgram || (existsSync(executablePath) ? false : `no browser at ${executablePath}`);
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

let browser;
before(async () => {
  if (skip) return;
  browser = await chromium.launch({
    executablePath,
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
      '--disable-component-update', '--disable-sync'],
  });
});
after(async () => browser?.close());

const thickness = (page) => page.getByLabel('Thickness').first();
const view = (page, name) => page.click(`nav button:has-text("${name}")`);
const savedAs = (file, words) => until(() => read(file).includes(words), `${words} in ${file}`);

async function until(isSo, what, ms = 15_000) {
  const end = Date.now() + ms;
  while (Date.now() < end) {
    if (await isSo()) return;
    await new Promise((resolve) => setTimeout(resolve, 30));
  }
  assert.fail(`never came: ${typeof what === 'function' ? await what() : what}`);
}

/// A window of its own; what the page complains of, or would load from elsewhere, fails the test that made it.
async function windowOn(server, options = {}) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 860 }, ...options });
  const page = await context.newPage();
  const complaints = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('dialog', (dialog) => complaints.push(`dialog: ${dialog.message()}`));
  page.on('request', (request) => {
    if (!request.url().startsWith(`http://127.0.0.1:${server.port}/`) && !request.url().startsWith('blob:')) complaints.push(request.url());
  });
  page.on('console', (message) => {
    if (/Content Security Policy/.test(message.text())) complaints.push(message.text());
  });
  await page.goto(server.url);
  await page.waitForSelector('nav button, form button');
  return { page, complaints, context };
}

test('from nothing to an answer in fewer than 40 actions', { skip }, async () => {
  const file = join(newFolder(), 'mine.houseleek');
  const server = await open(file);
  const { page, complaints, context } = await windowOn(server, { timezoneId: 'Europe/Lisbon' });
  let actions = 0;
  const fill = async (label, text) => {
    ++actions;
    await page.getByLabel(label, { exact: false }).fill(text);
  };
  const next = async () => {
    ++actions;
    await page.click('button[type=submit]');
  };
  await page.waitForSelector('text=What do you call it?');
  await fill('Name of the roof', 'A roof of mine');
  await next();
  await fill('Latitude', '38.7');
  await fill('Longitude', '-9.1');
  await next();
  await fill('Warmest month, a usual afternoon', '18');
  await fill('Warmest month, a usual night', '29');
  await fill('Coldest month, a usual afternoon', '15');
  await fill('Coldest month, a usual night', '8');
  await next();
  await fill('Rain in a year', '720');
  await next();
  await fill('Width', '5');
  await fill('Depth, away', '4');
  await next();
  for (let i = 0; i < 4; ++i) await next();
  await fill('Modules of one square metre', '2');
  await next();
  // Afternoon and night were mixed up: the page goes back to that question and marks the field with the engine's words.
  await page.waitForSelector('.is-wrong >> text=29 is not below 18');
  assert.equal(await page.getByLabel('Warmest month, a usual night').getAttribute('aria-invalid'), 'true');
  await fill('Warmest month, a usual afternoon', '29');
  await fill('Warmest month, a usual night', '18');
  for (let i = 0; i < 8; ++i) await next();
  await page.waitForSelector('h1:has-text("A roof of mine")');
  await page.waitForSelector('h2:has-text("This week")');
  ++actions;
  await view(page, 'Roof and answers');
  await page.waitForSelector('.card .sentence >> text=/kg\\/m2 dry/', { timeout: 30_000 });
  assert.ok(actions < 40, `${actions} actions`);
  assert.ok(existsSync(file));
  assert.deepEqual(complaints, []);
  await context.close();
  await server.stop();
});

test('the week: today first, a tick goes into the logbook; a description is told to become a project', { skip }, async () => {
  const project = join(newFolder(), 'roof.houseleek');
  assert.equal(spawnSync(program, ['import', writeRoof(), '--to', project]).status, 0);
  assert.equal(spawnSync(program, ['log', project, 'storm', '--gust-km-per-h', '95']).status, 0);
  const server = await open(project);
  const { page, complaints, context } = await windowOn(server);
  await page.waitForSelector('text=Working out what to water');
  await page.waitForSelector('.task');
  const week = JSON.parse(spawnSync(program, ['week', project, '--json'], { encoding: 'utf8' }).stdout);
  assert.match(week.items[0].what, /After the storm/);
  assert.equal(await page.locator('h3').first().innerText(), 'Today');
  assert.deepEqual(await page.locator('.task > div > strong').allInnerTexts(), week.items.map((item) => item.what));
  const first = await page.locator('.task').first().innerText();
  for (const part of [week.items[0].where, week.items[0].why, week.items[0].caution]) assert.ok(first.includes(part), part);
  for (const one of [...week.can_wait, ...week.missing]) assert.ok((await page.locator('main').innerText()).includes(one), one);
  await page.getByLabel('Done: After the storm').click();
  await until(async () => (await page.locator('.task', { hasText: 'After the storm' }).count()) === 0, 'a list without it');
  const events = JSON.parse(spawnSync(program, ['log', project, '--json'], { encoding: 'utf8' }).stdout).events;
  assert.deepEqual(events.map((event) => event.kind), ['storm', 'looked_at']);
  // What the engine refuses is said beside its item, and the box is empty again.
  await page.route('**/api/log', (route) => route.continue({ postData: JSON.stringify({ kind: 'looked_at', fields: { condition: 'odd' } }) }));
  await page.getByLabel('Done: Ceiling below').click();
  await page.waitForSelector('.task .issues');
  assert.equal(await page.getByLabel('Done: Ceiling below').isChecked(), false);
  assert.deepEqual(complaints, []);
  await context.close();
  await server.stop();
  const plain = await open(writeRoof());
  const other = await windowOn(plain);
  await other.page.waitForSelector('.task');
  assert.equal(await other.page.locator('.task input').count(), 0);
  await other.page.click('button:has-text("Make a project of it")');
  await other.page.waitForSelector('.task input[type=checkbox]');
  await other.context.close();
  await plain.stop();
});

test('a changed layer is answered, marked, undone; a wrong one marks its field', { skip }, async () => {
  const file = writeRoof();
  const server = await open(file);
  const { page, complaints, context } = await windowOn(server);
  await view(page, 'Recipes');
  const dry = () => page.locator('.figure', { hasText: 'dry' }).first().innerText();
  await page.waitForSelector('.recipe .figures');
  await until(async () => (await page.locator('.recipe .badge').count()) === 0, 'the first answer');
  const before = await dry();
  await thickness(page).fill('90');
  await page.keyboard.press('Enter');
  await savedAs(file, 'thickness_mm = 90 ');
  await until(async () => (await dry()) !== before, 'another weight');
  await thickness(page).fill('-3');
  await page.keyboard.press('Enter');
  await page.waitForSelector('.field.is-wrong');
  const told = JSON.parse(spawnSync(program, ['check', writeRoof(smallRoof.replace('thickness_mm = 50 ', 'thickness_mm = -3 ')), '--json'], { encoding: 'utf8' }).stdout);
  const shown = await page.locator('.field.is-wrong .issues').innerText();
  assert.ok(shown.includes(told.issues[0].message), `${shown} | ${told.issues[0].message}`);
  assert.match(read(file), /thickness_mm = 90 /);
  assert.equal(await thickness(page).getAttribute('aria-invalid'), 'true');
  await thickness(page).focus();
  await page.keyboard.press('Escape');
  await page.click('button:has-text("Undo")');
  await savedAs(file, 'thickness_mm = 50 ');
  await until(async () => (await dry()) === before, 'the weight of before');
  assert.equal(read(file), smallRoof);
  assert.deepEqual(complaints, []);
  await context.close();
  await server.stop();
});

test('what is typed and what was sent live through reload and kill -9', { skip }, async () => {
  const file = writeRoof();
  let server = await open(file);
  const { page, context } = await windowOn(server);
  await view(page, 'Recipes');
  await page.waitForSelector('.recipe');
  await thickness(page).pressSequentially('5');
  const typed = await thickness(page).inputValue();
  assert.notEqual(typed, '50');
  await page.reload();
  await view(page, 'Recipes');
  await until(async () => (await thickness(page).inputValue()) === typed, 'what was typed');
  assert.equal(read(file), smallRoof, 'it was not saved yet');
  await server.kill();
  await thickness(page).fill('77');
  await thickness(page).press('Enter');
  await page.waitForSelector('[role=alert] >> text=The program has stopped');
  assert.equal(read(file), smallRoof);
  server = await open(file);
  await page.goto('about:blank');
  await page.goto(server.url);
  // The change that nobody had acknowledged is made by itself, because nothing came between.
  await savedAs(file, 'thickness_mm = 77 ');
  await context.close();
  await server.stop();
});

test('the second window is told, and overwrites nothing', { skip }, async () => {
  const file = writeRoof();
  const server = await open(file);
  const one = await windowOn(server);
  const two = await windowOn(server);
  for (const { page } of [one, two]) {
    await view(page, 'Recipes');
    await page.waitForSelector('.recipe');
  }
  await thickness(one.page).fill('60');
  await one.page.keyboard.press('Enter');
  await savedAs(file, 'thickness_mm = 60 ');
  await thickness(two.page).fill('70');
  await two.page.keyboard.press('Enter');
  await two.page.waitForSelector('text=Somebody else has saved meanwhile');
  assert.match(read(file), /thickness_mm = 60 /);
  await two.page.click('button:has-text("Make my change on top of it")');
  await savedAs(file, 'thickness_mm = 70 ');
  await one.context.close();
  await two.context.close();
  await server.stop();
});

test('by keyboard alone: to the drawing, pick, move, take away', { skip }, async () => {
  const file = writeRoof();
  const server = await open(file);
  const { page, context } = await windowOn(server);
  const tabTo = async (isThere) => {
    for (let i = 0; i < 60; ++i) {
      await page.keyboard.press('Tab');
      if (await page.evaluate(isThere)) return;
    }
    assert.fail('not to be reached');
  };
  await page.waitForSelector('nav');
  await tabTo(() => document.activeElement?.textContent === 'Roof and answers');
  await page.keyboard.press('Enter');
  await page.waitForSelector('.drawing svg');
  await tabTo(() => document.activeElement?.getAttribute('role') === 'listbox');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Space');
  assert.equal(await page.getAttribute('#module-1', 'aria-selected'), 'true');
  await page.keyboard.press('Shift+ArrowRight');
  await savedAs(file, 'at = [[0.6, 0.6], [1.72, 0.6]]');
  await page.keyboard.press('Delete');
  await savedAs(file, 'at = [[0.6, 0.6]]');
  await page.keyboard.press('Control+z');
  await savedAs(file, 'at = [[0.6, 0.6], [1.72, 0.6]]');
  await context.close();
  await server.stop();
});

test('by pointer: picked modules are dragged, a place is clicked for a new one', { skip }, async () => {
  const file = writeRoof();
  const server = await open(file);
  const { page, context } = await windowOn(server);
  await view(page, 'Roof and answers');
  await page.waitForSelector('#module-0');
  await page.click('#module-0 .top', { force: true });
  assert.equal(await page.getAttribute('#module-0', 'aria-selected'), 'true');
  const box = await page.locator('#module-0 .top').boundingBox();
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width / 2, box.y - box.height, { steps: 5 });
  await page.mouse.up();
  await until(() => !read(file).includes('columns'), 'a list of places');
  // One and a half of its drawn height further away: 1.5 m and the line round it; to 50 mm.
  const [, x, y, rest] = read(file).match(/at = \[\[([\d.]+), ([\d.]+)\], (\[[^\]]*\])\]/);
  assert.equal(x, '0.6');
  assert.equal(rest, '[1.62, 0.6]');
  assert.ok(Number(y) >= 2.1 && Number(y) <= 2.3, y);
  assert.ok(Math.abs(Number(y) * 20 - Math.round(Number(y) * 20)) < 1e-9, y);
  await page.click('button:has-text("Point in the drawing")');
  const second = await page.locator('#module-1 .top').boundingBox();
  await page.mouse.click(second.x + second.width * 2, second.y + second.height / 2);
  await until(() => read(file).split('[[patch]]').length === 3, 'another patch');
  await context.close();
  await server.stop();
});

test('names with markup are names', { skip }, async () => {
  const evil = '<img src=x onerror=alert(1)><script>alert(2)</script>';
  const file = writeRoof(smallRoof.replaceAll('"thin"', `'${evil}'`).replace('"Small roof"', `'${evil}'`).replaceAll('name = "room"', `name = '${evil}'`));
  const server = await open(file);
  const { page, complaints, context } = await windowOn(server);
  assert.ok((await page.innerText('h1')).includes('<img'));
  for (const name of ['Roof and answers', 'Recipes', 'On the roof', 'Description']) {
    await view(page, name);
    await page.waitForTimeout(100);
    assert.equal(await page.locator('img, #page script').count(), 0, name);
  }
  await view(page, 'Roof and answers');
  await page.waitForSelector('.card .sentence', { timeout: 20_000 });
  assert.equal(await page.locator('img, #page script').count(), 0);
  assert.deepEqual(complaints, []);
  await context.close();
  await server.stop();
});

test('axe-core finds nothing serious in any view, light and dark, wide and narrow; nothing is cut off', { skip }, async () => {
  const project = join(newFolder(), 'roof.houseleek');
  assert.equal(spawnSync(program, ['import', writeRoof(), '--to', project]).status, 0);
  const server = await open(project);
  const blank = await open(join(newFolder(), 'none.toml'));
  for (const [colorScheme, width] of [['light', 1280], ['dark', 390]]) {
    for (const [one, names] of [[server, ['This week', 'Roof and answers', 'Recipes', 'On the roof', 'Description']], [blank, ['']]]) {
      const { page, context } = await windowOn(one, { colorScheme, viewport: { width, height: 844 }, bypassCSP: true });
      for (const name of names) {
        if (name) await view(page, name);
        await page.waitForSelector(name === 'Roof and answers' ? '.card .sentence' : name === 'This week' ? '.task' : 'h2', { timeout: 20_000 });
        await page.evaluate(() => document.querySelectorAll('details').forEach((one) => (one.open = true)));
        await page.evaluate(axe);
        const found = await page.evaluate(async () =>
          (await window.axe.run(document, { resultTypes: ['violations'] })).violations
            .filter((one) => one.impact === 'serious' || one.impact === 'critical')
            .map((one) => `${one.id}: ${one.help}: ${one.nodes.slice(0, 3).map((node) => node.html.slice(0, 160)).join(' | ')}`));
        assert.deepEqual(found, [], `${name}, ${colorScheme}, ${width}`);
        const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
        assert.ok(over <= 0, `${name} is ${over} px too wide at ${width}`);
      }
      await context.close();
    }
  }
  await server.stop();
  await blank.stop();
});

test('a thousand modules are panned and picked without a frame above 50 ms', { skip }, async () => {
  const large = smallRoof.replaceAll('[[0, 0], [5, 0], [5, 4], [0, 4]]', '[[0, 0], [45, 0], [45, 30], [0, 30]]')
    .replace('at = [2.5, 3.8]', 'at = [22, 29.5]').replace('columns = 2\nrows = 1', 'columns = 40\nrows = 25');
  const server = await open(writeRoof(large));
  const { page, context } = await windowOn(server);
  await page.route('**/api/quick', (route) => route.abort()); // the answers' own work is not what is measured
  await view(page, 'Roof and answers');
  await page.waitForSelector('#module-999');
  await page.waitForTimeout(500);
  const longest = async (work) => {
    await page.evaluate(() => {
      window.frames_ms = [];
      let last = performance.now();
      const frame = (now) => {
        window.frames_ms.push(now - last);
        last = now;
        window.frame_handle = requestAnimationFrame(frame);
      };
      window.frame_handle = requestAnimationFrame(frame);
    });
    await work();
    return page.evaluate(() => {
      cancelAnimationFrame(window.frame_handle);
      return window.frames_ms.slice(1).sort((a, b) => a - b);
    });
  };
  const box = await page.locator('.drawing svg').boundingBox();
  // Other work on this machine may hold up a frame; the page's own cost would show in every round.
  let least = Infinity;
  for (let round = 0; round < 4 && least >= 50; ++round) {
    const frames = await longest(async () => {
      await page.mouse.move(box.x + 20, box.y + 20);
      await page.mouse.down();
      for (let i = 1; i <= 30; ++i) await page.mouse.move(box.x + 20 + 4 * i, box.y + 20 + 2 * i);
      await page.mouse.up();
    });
    assert.ok(frames.length > 5);
    least = Math.min(least, frames.at(-1));
  }
  assert.ok(least < 50, `panning: ${least} ms`);
  await context.close();
  await server.stop();
});
