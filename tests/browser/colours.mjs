// Contrast of words in drawings, which the checks for access leave open: they see an image behind.

// The least that WCAG 2.2 asks of small words.
const LEAST = 4.5;
// The highest picture that is taken, in px.
const MOST_HIGH = 16000;

// Words in drawings that stand out too little from what is behind them, by the pixels there. Leaves
// nothing on the page but its drawings, so that one picture has all of them.
export async function faint(page, browser) {
  const before = page.viewportSize();
  const height = await page.evaluate(() => {
    const drawings = [...document.querySelectorAll('svg:has(text)')];
    for (const one of document.body.querySelectorAll('*')) {
      if (!drawings.some(drawing => drawing.contains(one) || one.contains(drawing))) one.style.display = 'none';
    }
    return document.documentElement.scrollHeight;
  });
  await page.setViewportSize({width: before.width, height: Math.min(height, MOST_HIGH)});
  const words = await page.evaluate(() => {
    scrollTo(0, 0);
    const all = [...document.querySelectorAll('svg text')].filter(one => one.checkVisibility());
    return all.map(text => {
      const {x, y, width, height} = text.getBoundingClientRect();
      const ink = getComputedStyle(text).fill;
      text.style.visibility = 'hidden';
      return {words: text.textContent, ink, box: [x, y, width, height]};
    });
  });
  const behind = (await page.screenshot()).toString('base64');
  const looker = await browser.newPage();
  const found = await looker.evaluate(measured, {behind, words, least: LEAST});
  await looker.close();
  return found;
}

// In a page of its own: the part of the pixels behind each word that it stands out from.
async function measured({behind, words, least}) {
  const image = await createImageBitmap(await (await fetch(`data:image/png;base64,${behind}`)).blob());
  const canvas = new OffscreenCanvas(image.width, image.height);
  const look = canvas.getContext('2d');
  look.drawImage(image, 0, 0);
  const part = value => (value / 255 <= 0.04045 ? value / 255 / 12.92 : ((value / 255 + 0.055) / 1.055) ** 2.4);
  const light = ([red, green, blue]) => 0.2126 * part(red) + 0.7152 * part(green) + 0.0722 * part(blue);
  const wrong = [];
  for (const {words: text, ink, box} of words) {
    const [left, top, width, height] = box.map(Math.round);
    const own = light(ink.match(/[\d.]+/g).map(Number));
    if (top + height > image.height) continue;
    const {data} = look.getImageData(left, top, Math.max(1, width), Math.max(1, height));
    let clear = 0;
    for (let at = 0; at < data.length; at += 4) {
      const back = light(data.subarray(at, at + 3));
      clear += (Math.max(own, back) + 0.05) / (Math.min(own, back) + 0.05) >= least;
    }
    // A line may run behind a word, which keeps clear of it, but not under much of it.
    if (clear * 4 / data.length < 0.8) wrong.push(`${text} in ${ink}: ${Math.round(clear * 400 / data.length)} % clear`);
  }
  return wrong;
}
