// A page in a browser that notes whatever a page must not do.

import {pathToFileURL} from 'node:url';
import {chromium} from 'playwright-core';

const ALONE = ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'];

export const launched = () => chromium.launch({executablePath: process.env.CHROMIUM, args: ALONE});

// The page of a file: `fragment`, `width`, `colour`, `script` as asked. `wrong` fills with what it
// must not do: errors, requests, dialogs.
export async function opened(browser, file, {fragment = '', width = 1440, colour = 'light', script = true} = {}) {
  const context = await browser.newContext({
    viewport: {width, height: 900},
    colorScheme: colour,
    javaScriptEnabled: script,
    offline: true,
  });
  context.setDefaultTimeout(5000);
  const page = await context.newPage();
  const url = pathToFileURL(file).href;
  const wrong = [];
  page.on('console', line => {
    if (['error', 'warning'].includes(line.type())) wrong.push(`console: ${line.text()}`);
  });
  page.on('pageerror', error => wrong.push(`script: ${error}`));
  page.on('request', request => {
    if (request.url().split('#')[0] !== url) wrong.push(`request: ${request.url()}`);
  });
  page.on('dialog', dialog => {
    wrong.push(`dialog: ${dialog.message()}`);
    dialog.dismiss();
  });
  context.on('page', () => wrong.push('another page'));
  await page.goto(url + fragment);
  return {page, wrong, closed: () => context.close()};
}

// Opens all that can be opened, as a reader does.
export const unfolded = page => page.evaluate(() => {
  for (const one of document.querySelectorAll('details:not([open]) > summary')) one.click();
});
