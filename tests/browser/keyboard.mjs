// A page by keyboard alone.

const TAKES_FOCUS = 'a[href], button, input, select, textarea, summary, [tabindex="0"]';

// Presses Tab from the top to the end: what was reached, and what is wrong with the way.
export async function walked(page) {
  const count = await page.evaluate(what => {
    document.activeElement?.blur();
    scrollTo(0, 0);
    globalThis.stops = [...document.querySelectorAll(what)].filter(one => one.checkVisibility({visibilityProperty: true}));
    return globalThis.stops.length;
  }, TAKES_FOCUS);
  const [reached, wrong] = [[], []];
  for (let at = 0; at < count; at += 1) {
    await page.keyboard.press('Tab');
    const stop = await page.evaluate(() => {
      const own = document.activeElement;
      const box = own.getBoundingClientRect();
      // What lies over its middle hides it.
      const middle = [Math.max(0, box.left) + Math.min(box.right, innerWidth), Math.max(0, box.top) + Math.min(box.bottom, innerHeight)];
      const over = document.elementFromPoint(middle[0] / 2, middle[1] / 2);
      const seen = over && (own.contains(over) || over.contains(own) || own.closest('svg')?.contains(over));
      return {at: globalThis.stops.indexOf(own), name: own.outerHTML.slice(0, 120), kind: [own.closest('svg, thead, tbody, .filters')?.localName, own.localName].join(' '), seen: Boolean(seen)};
    });
    if (stop.at !== at) {
      wrong.push(`stop ${at} is ${stop.at}: ${stop.name}`);
      break;
    }
    reached.push(stop.kind);
    if (!stop.seen) wrong.push(`out of sight: ${stop.name}`);
  }
  return {reached, wrong};
}

// Kinds of things whose focus cannot be seen: the first of each kind, with and without focus.
export async function unseen(page) {
  const kinds = await page.evaluate(what => {
    const first = new Map();
    for (const one of document.querySelectorAll(what)) {
      if (!one.checkVisibility({visibilityProperty: true})) continue;
      const kind = [one.localName, one.closest('svg') ? 'drawn' : '', one.closest('table') ? 'in a table' : '', one.className.baseVal ?? one.className].join(' ');
      if (!first.has(kind)) first.set(kind, one);
    }
    globalThis.kinds = [...first.values()];
    return [...first.keys()];
  }, TAKES_FOCUS);
  const lost = [];
  await page.keyboard.press('Tab');
  for (let at = 0; at < kinds.length; at += 1) {
    const box = await page.evaluate(number => {
      const own = globalThis.kinds[number];
      own.scrollIntoView({block: 'center'});
      own.focus();
      const {left, top, width, height} = own.getBoundingClientRect();
      return {x: Math.max(0, left - 8), y: Math.max(0, top - 8), width: Math.min(width, innerWidth) + 16, height: Math.min(height, innerHeight) + 16};
    }, at);
    const focused = await page.screenshot({clip: box});
    await page.evaluate(number => globalThis.kinds[number].blur(), at);
    const plain = await page.screenshot({clip: box});
    if (focused.equals(plain)) lost.push(kinds[at]);
  }
  return {kinds, lost};
}
