// A page on paper.

// Width and height in mm.
export const PAPERS = {A4: [210, 297], Letter: [215.9, 279.4]};

// How many sheets it takes.
export async function sheets(page, format) {
  const pdf = await page.pdf({format, preferCSSPageSize: false});
  return pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g).length;
}

// What sticks out to the right of a sheet, and would be cut off.
export async function cut(page, format, margin) {
  const [width, height] = PAPERS[format];
  const px = mm => Math.floor(mm / 25.4 * 96);
  await page.emulateMedia({media: 'print'});
  const before = page.viewportSize();
  await page.setViewportSize({width: px(width - 2 * margin), height: px(height - 2 * margin)});
  const found = await page.evaluate(() => {
    const right = document.documentElement.clientWidth;
    const all = [...document.body.querySelectorAll('*')].filter(one => one.checkVisibility());
    const wide = all.filter(one => !one.closest('svg') && one.getBoundingClientRect().right > right + 1);
    const scrolls = all.filter(one => !one.closest('svg') && one.scrollWidth > one.clientWidth + 1 && getComputedStyle(one).overflowX !== 'visible');
    return [...wide, ...scrolls].map(one => one.outerHTML.slice(0, 160));
  });
  await page.emulateMedia({media: null});
  await page.setViewportSize(before);
  return found;
}
