// The page for a reviewer: of libraries, of what a hostile export says, of an audit with news.

import assert from 'node:assert/strict';
import {after, before, describe, it} from 'node:test';
import {launched, opened, unfolded} from './browser.mjs';
import {LOOKS, everyPage} from './every_page.mjs';
import {walked} from './keyboard.mjs';
import {DAY, beside, fixture, library, page as made, place, told} from './program.mjs';

const HEADER = 'tool_number,stick_out,overall_length,shank_length,shank_diameter,cutting_diameter,collet_size,bore_diameter,bore_length';

// The page of an audit in which one tool is worse than in the one before, and one is new.
function news() {
  const files = stickOut => ({'tools.csv': `${HEADER}\n1,${stickOut},83,45,12,12,32,12,40\n2,65,83,45,12,12,32,12,40\n`});
  const plant = library('plant', files(40));
  told('audit', plant, ...DAY, '--out', place('before'), '--quiet');
  library('plant', files(67));
  told('audit', plant, ...DAY, '--since', place('before'), '--out', place('now'), '--quiet');
  return made('report', place('now/audit.json'));
}

const demo = () => made('report', fixture('demo'), ...DAY);

everyPage('the report of the demo', demo, {A4: [30, 45], Letter: [30, 48]});
everyPage('the report of all clampings', () => made('report', fixture('clampings'), ...DAY), {A4: [20, 40], Letter: [20, 45]}, {looks: LOOKS.filter(look => (look.colour === 'dark') === (look.width === 390))});
everyPage('the report of a hostile export', () => made('report', beside('hostile.csv'), ...DAY), {A4: [1, 60], Letter: [1, 60]});
everyPage('the report of an audit with news', news, {A4: [2, 4], Letter: [2, 4]});

describe('a report', () => {
  let browser, file;
  before(async () => {
    browser = await launched();
    file = demo();
  });
  after(() => browser?.close());

  const rows = page => page.locator('#list tbody tr:visible');
  const column = (page, number) => rows(page).locator(`td:nth-child(${number})`).allTextContents();
  const level = page => rows(page).evaluateAll(all => all.map(row => row.dataset.level));

  it('sorts by a column, and the other way when asked again', async () => {
    const {page} = await opened(browser, file);
    const before = await column(page, 2);
    const natural = new Intl.Collator('en', {numeric: true}).compare;
    const tool = page.locator('#list thead button', {hasText: 'tool'});
    await tool.click();
    const up = await column(page, 2);
    assert.deepEqual(up, [...before].sort(natural));
    assert.notDeepEqual(up, before);
    assert.equal(await page.locator('#list th[aria-sort=ascending]').textContent(), 'tool');
    await tool.click();
    assert.deepEqual(await column(page, 2), [...before].sort(natural).reverse());
    assert.equal(await page.locator('#list th[aria-sort=descending]').textContent(), 'tool');
  });

  it('filters, says how many are left, and keeps it in its address', async () => {
    const {page} = await opened(browser, file);
    const all = await level(page);
    const errors = all.filter(one => one === 'error').length;
    assert.ok(errors > 0 && errors < all.length);
    await page.locator('#f-level').selectOption('error');
    assert.deepEqual(await level(page), Array(errors).fill('error'));
    assert.equal(await page.locator('#shown').textContent(), `${errors} of ${all.length} findings`);
    await page.locator('#list thead button', {hasText: 'tool'}).click();
    const [rule] = await column(page, 4);
    await page.locator('#f-rule').selectOption(rule);
    const left = await column(page, 2);
    assert.ok(left.length > 0 && left.length <= errors);
    const fragment = new URL(page.url()).hash;
    const again = await opened(browser, file, {fragment});
    assert.deepEqual(await column(again.page, 2), left);
    assert.deepEqual(await level(again.page), Array(left.length).fill('error'));
    assert.equal(await again.page.locator('#f-rule').inputValue(), rule);
    await again.page.locator('#f-rule').selectOption('');
    await again.page.locator('#f-level').selectOption('');
    assert.equal((await level(again.page)).length, all.length);
  });

  it('shows only what is new when asked', async () => {
    const {page} = await opened(browser, news());
    const all = await rows(page).count();
    await page.locator('#f-news').selectOption('new');
    const left = await rows(page).evaluateAll(found => found.map(row => row.dataset.news));
    assert.ok(left.length > 0 && left.length < all && left.every(one => one === 'new'), `${left} of ${all}`);
  });

  it('has its points, filters, table and tools reached by keyboard', async () => {
    const {page} = await opened(browser, file);
    const {reached} = await walked(page);
    const count = kind => reached.filter(one => one === kind).length;
    assert.equal(count('svg a'), await page.locator('.map a').count());
    assert.ok(count('svg a') > 20 && count('div select') >= 3, `${reached}`);
    assert.equal(count('thead button'), await page.locator('#list th:visible').count());
    assert.equal(count('tbody a'), await rows(page).count());
    assert.equal(count(' summary'), await page.locator('details').count());
    // Enter opens what has the focus.
    const tool = page.locator('details').first();
    await tool.locator('summary').focus();
    await page.keyboard.press('Enter');
    assert.ok(await tool.evaluate(one => one.open));
  });

  it('opens the tool that a link leads to', async () => {
    for (const script of [true, false]) {
      const {page} = await opened(browser, file, {script});
      const link = page.locator('#list tbody tr:nth-child(5) td:nth-child(2) a');
      const name = await link.textContent();
      const goal = await link.getAttribute('href');
      const isShown = async shown => {
        const tool = shown.locator('details').filter({has: shown.locator(`summary b:text-is("tool ${name}")`)});
        assert.ok(await tool.evaluate(one => one.open), `closed, script ${script}`);
        const {top, bottom} = await tool.locator('summary').evaluate(one => one.getBoundingClientRect().toJSON());
        assert.ok(top >= 0 && bottom <= 900, `out of sight, script ${script}: ${top} to ${bottom}`);
      };
      await link.click();
      await isShown(page);
      const direct = await opened(browser, file, {script, fragment: goal});
      await isShown(direct.page);
    }
  });

  it('is whole with scripts off', async () => {
    const {page} = await opened(browser, file, {script: false});
    await unfolded(page);
    const flat = text => text.replace(/\s+/g, ' ').trim();
    const text = flat(await page.locator('body').innerText());
    const {findings} = JSON.parse(told('lint', fixture('demo'), '--as', 'json', '--remedies', ...DAY));
    const lost = findings.filter(one => one.level !== 'note').flatMap(one => [one.message, one.advice, one.why]).filter(one => !text.includes(flat(one)));
    assert.deepEqual(lost, []);
    assert.ok(findings.length > 50);
    // What only a script would answer is not shown.
    assert.equal(await page.locator('select:visible').count(), 0);
  });
});

// 630 tools in seven libraries: more than a browser is given as elements from the start.
function long() {
  const row = number => `${number},65,83,45,12,12,32,12,40`;
  const rows = Array.from({length: 90}, (_, at) => row(at + 1)).join('\n');
  const files = Array.from({length: 7}, (_, at) => [`cell${at + 1}.csv`, `${HEADER}\n${rows}\n`]);
  // Without remedies, which take most of the time.
  told('audit', library('long', Object.fromEntries(files)), ...DAY, '--out', place('seven'), '--quiet');
  return made('report', place('seven/audit.json'));
}

describe('a long report', () => {
  let browser, file;
  before(async () => {
    browser = await launched();
    file = long();
  });
  after(() => browser?.close());

  const rows = page => page.locator('#list tbody tr').count();
  const all = page => page.locator('#shown').getAttribute('data-all').then(Number);

  it('makes a tool when it is opened, and only then', async () => {
    const {page} = await opened(browser, file);
    assert.equal(await page.locator('details').count(), 630);
    assert.equal(await page.locator('details .finding').count(), 0);
    await page.locator('details').last().locator('summary').click();
    await page.locator('details').last().locator('.finding.error').first().waitFor();
    const direct = await opened(browser, file, {fragment: '#t3-80'});
    assert.ok(await direct.page.locator('#t3-80 .finding').first().isVisible());
  });

  it('sorts and filters all rows, and shows more of them when asked', async () => {
    const {page, wrong} = await opened(browser, file);
    const count = await all(page);
    assert.ok(count > 1000);
    assert.equal(await rows(page), 500);
    await page.locator('#more').click();
    assert.equal(await rows(page), 1000);
    await page.locator('#list thead button', {hasText: 'tool'}).click();
    const tools = await page.locator('#list tbody td:nth-child(2)').allTextContents();
    assert.equal(tools.length, 500);
    assert.deepEqual(tools, [...tools].sort(new Intl.Collator('en', {numeric: true}).compare));
    const libraries = await page.locator('#f-library option').allTextContents();
    await page.locator('#f-library').selectOption(libraries.at(-1));
    const left = Number((await page.locator('#shown').textContent()).split(' ')[0]);
    assert.equal(left, await rows(page));
    assert.equal(left * 7, count);
    await page.locator('#f-text').fill('SHORT-GRIP');
    assert.equal(await rows(page), 90);
    assert.match(new URL(page.url()).hash, /text=SHORT-GRIP/);
    assert.deepEqual(wrong, []);
  });

  it('is whole on paper, and with scripts off', async () => {
    const {page} = await opened(browser, file);
    const count = await all(page);
    await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
    const printed = await page.locator('details .finding').count();
    assert.equal(await rows(page), count);
    assert.ok(printed >= 630);
    await page.evaluate(() => dispatchEvent(new Event('afterprint')));
    assert.equal(await rows(page), 500);
    const plain = await opened(browser, file, {script: false});
    assert.equal(await plain.page.locator('.list tbody tr').count(), count);
    assert.equal(await plain.page.locator('details .finding').count(), printed);
    await plain.page.locator('details').last().locator('summary').click();
    assert.ok(await plain.page.locator('details').last().locator('.finding').first().isVisible());
  });
});
