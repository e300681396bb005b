// What every page that the program makes must do. A page is checked by a file of a few lines:
//
//     everyPage('the cards of the demo', () => page('cards', fixture('demo')), {A4: [6, 6], Letter: [6, 6]});
//
// The numbers are the fewest and the most sheets of paper. `margin` is that of a sheet, in mm.

import assert from 'node:assert/strict';
import {after, before, describe, it} from 'node:test';
import {readFileSync} from 'node:fs';
import {createRequire} from 'node:module';
import {launched, opened, unfolded} from './browser.mjs';
import {faint} from './colours.mjs';
import {unseen, walked} from './keyboard.mjs';
import {cut, sheets} from './paper.mjs';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
export const LOOKS = ['light', 'dark'].flatMap(colour => [1440, 390].map(width => ({colour, width})));

export function everyPage(name, make, papers, {margin = 14, looks = LOOKS} = {}) {
  describe(name, () => {
    let browser, file;
    before(async () => {
      file = make();
      browser = await launched();
    });
    after(() => browser?.close());

    it('does nothing that a page must not do, however it is used', async () => {
      const {page, wrong, closed} = await opened(browser, file);
      await unfolded(page);
      for (const select of await page.locator('select:visible').all()) {
        const options = await select.locator('option').evaluateAll(all => all.map(one => one.value));
        for (const option of options.slice(-6)) await select.selectOption(option);
        await select.selectOption('');
      }
      for (const button of await page.locator('button:visible').all()) await button.click();
      await page.locator('a[href]').evaluateAll(all => all.forEach(one => one.dispatchEvent(new MouseEvent('click', {bubbles: true}))));
      assert.deepEqual(wrong, []);
      await closed();
    });

    it('is walked through by keyboard, and shows where one is', async () => {
      const {page, closed} = await opened(browser, file);
      const way = await walked(page);
      assert.deepEqual(way.wrong, []);
      assert.deepEqual((await unseen(page)).lost, []);
      await closed();
    });

    it('prints with and without a script, and nothing is cut off', async () => {
      const counts = {};
      for (const script of [true, false]) {
        const {page, closed} = await opened(browser, file, {script});
        counts[script] = await sheets(page, 'A4');
        if (script) counts.Letter = await sheets(page, 'Letter');
        if (script) await unfolded(page);
        for (const format of script ? Object.keys(papers) : []) assert.deepEqual(await cut(page, format, margin), [], format);
        await closed();
      }
      assert.equal(counts[false], counts[true], 'sheets with and without a script');
      for (const [format, count] of [['A4', counts[true]], ['Letter', counts.Letter]]) {
        const [least, most] = papers[format];
        assert.ok(count >= least && count <= most, `${count} sheets of ${format}, not ${least} to ${most}`);
      }
    });

    for (const look of looks) {
      it(`can be read by everyone: ${look.colour}, ${look.width} px`, async () => {
        const {page, closed} = await opened(browser, file, look);
        await unfolded(page);
        await page.evaluate(AXE);
        const {violations, incomplete} = await page.evaluate(rules => globalThis.axe.run({runOnly: rules, resultTypes: ['violations', 'incomplete']}), RULES);
        const said = all => all.flatMap(one => one.nodes.map(node => `${one.id}: ${node.html.slice(0, 160)} ${node.failureSummary}`));
        assert.deepEqual(said(violations), []);
        // Left open are words in drawings only: their contrast is measured below.
        const open = incomplete.map(one => ({...one, nodes: one.nodes.filter(node => one.id !== 'color-contrast' || !/^<(text|tspan)\b/.test(node.html))}));
        assert.deepEqual(said(open), []);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
        assert.ok(wide <= 0, `${wide} px are beyond the right edge`);
        if (look.width === 1440) assert.deepEqual(await faint(page, browser), []);
        await closed();
      });
    }
  });
}
