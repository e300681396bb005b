// Setup sheet and cards: on paper above all, where a card is never split.

import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import {describe, it} from 'node:test';
import {everyPage} from './every_page.mjs';
import {DAY, beside, fixture, page as made} from './program.mjs';

const cards = path => () => made('cards', path, ...DAY);
// The sheet, and four cards on each of the others where none needs more than its share.
const margin = {margin: 6};

everyPage('the cards of the demo', cards(fixture('demo')), {A4: [13, 15], Letter: [13, 16]}, margin);
everyPage('the cards of all clampings', cards(fixture('clampings')), {A4: [19, 24], Letter: [19, 26]}, margin);
everyPage('the cards of a hostile export', cards(beside('hostile.csv')), {A4: [2, 60], Letter: [2, 60]}, margin);

describe('cards', () => {
  it('have no script', () => {
    const page = readFileSync(cards(fixture('demo'))(), 'utf8');
    assert.ok(page.includes("script-src 'none'") && !page.includes('<script'));
  });
});
