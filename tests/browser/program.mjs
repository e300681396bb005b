// Pages that the program makes, in a folder that goes when the tests have ended.

import {execFileSync} from 'node:child_process';
import {mkdirSync, mkdtempSync, rmSync, writeFileSync} from 'node:fs';
import {tmpdir} from 'node:os';
import {dirname, join, resolve} from 'node:path';
import {fileURLToPath} from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'pages-'));
process.on('exit', () => rmSync(folder, {recursive: true, force: true}));

// The same pages on every day.
export const DAY = ['--as-of', '2027-01-31'];

let made = 0;

export const fixture = name => resolve(here, '../../fixtures', name);
export const beside = name => join(here, name);

// What a call of the program prints. That tools fail is no fault of the call.
export function told(...options) {
  try {
    return execFileSync(process.env.SHANKWISE, options, {cwd: folder, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'], maxBuffer: 1 << 28});
  } catch (why) {
    if (why.status === 1) return why.stdout;
    throw new Error(`shankwise ${options.join(' ')}: ${why.stderr}`);
  }
}

// The page that a call writes: its options without `--out`.
export function page(...options) {
  made += 1;
  const file = join(folder, `page${made}.html`);
  told(...options, '--out', file);
  return file;
}

// A folder with these files.
export function library(name, files) {
  const own = join(folder, name);
  mkdirSync(own, {recursive: true});
  for (const [file, text] of Object.entries(files)) writeFileSync(join(own, file), text);
  return own;
}

// Where something is put that is no page.
export const place = name => join(folder, name);
