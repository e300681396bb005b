// The answer to a quick question: one sheet of paper, whichever it is.

import {everyPage} from './every_page.mjs';
import {DAY, page as made} from './program.mjs';

const TOOL = ['--overall-length', '83', '--shank-diameter', '12', '--shank-length', '45', '--reach', '35'];
const SET = ['--bore-length', '40', '--collet-size', '32', '--cutting-diameter', '12', '--nut-outer-diameter', '50', '--stick-out', '57'];

const answer = (...options) => () => made('window', '--as', 'html', ...TOOL, ...options, ...DAY);
const one = {A4: [1, 1], Letter: [1, 1]};

everyPage('the answer with an invented socket', answer(...SET, '--socket', 'example'), one, {margin: 9});
everyPage('the answer without a gripping length', answer('--collet-size', '32'), one, {margin: 9});
everyPage('the answer to a hostile question', answer(...SET, '--description', '<script>alert(1)</script>]]>'), one, {margin: 9});
