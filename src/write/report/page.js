'use strict';
(() => {
  const get = id => document.getElementById(id);
  const body = document.querySelector('#list tbody');
  const fields = ['level', 'rule', 'library', 'machine', 'clamping', 'news', 'text'];
  const inputs = Object.fromEntries(fields.map(f => [f, get('f-' + f)]));
  const levels = ['error', 'warning', 'none', 'note'];
  const names = new Intl.Collator(undefined, {numeric: true});
  const [shown, more, rest, point] = ['shown', 'more', 'rest', 'point'].map(get);
  const columns = {rule: 3, library: 4, machine: 5};
  const STEP = 500;
  let rows = body ? [...body.rows] : [];
  let most = STEP;
  // What is text until it is asked for: the page as it is without a script.
  const made = noscript => {
    const own = document.createElement('template');
    own.innerHTML = noscript.textContent;
    return own.content;
  };
  function whole() {
    if (!rest || !rest.isConnected) return;
    rows.push(...made(rest).querySelectorAll('tbody tr'));
    rest.remove();
  }
  function fill(tool) {
    const own = tool.querySelector('.inside > noscript');
    if (own) own.replaceWith(made(own));
  }
  function value(row, field) {
    if (field === 'text') return row.textContent.toLowerCase();
    return field in columns ? row.cells[columns[field]].textContent : row.dataset[field];
  }
  const fits = (row, f, wanted) => f === 'text' ? value(row, f).includes(wanted.toLowerCase()) : value(row, f) === wanted;
  const state = () => new URLSearchParams(location.hash.startsWith('#?') ? location.hash.slice(2) : '');
  function sorted(kept, sort) {
    const column = Number(sort.replace('-', ''));
    const key = row => column === 0 ? String(levels.indexOf(row.dataset.level)) : row.cells[column].textContent;
    const found = kept.map(row => [key(row), row]).sort((a, b) => names.compare(a[0], b[0])).map(pair => pair[1]);
    if (sort.startsWith('-')) found.reverse();
    document.querySelectorAll('#list thead th').forEach((th, at) => {
      th.setAttribute('aria-sort', at === column ? (sort.startsWith('-') ? 'descending' : 'ascending') : 'none');
    });
    return found;
  }
  function apply() {
    if (!body) return;
    const wanted = state();
    if (most > STEP || fields.some(f => wanted.get(f)) || wanted.get('sort')) whole();
    for (const f of fields) if (inputs[f] && !(f === 'text' && inputs[f] === document.activeElement)) inputs[f].value = wanted.get(f) || '';
    const kept = sorted(rows.filter(row => fields.every(f => !wanted.get(f) || fits(row, f, wanted.get(f)))), wanted.get('sort') || '0');
    body.replaceChildren(...kept.slice(0, most));
    const all = Number(shown.dataset.all);
    const left = rest && rest.isConnected ? all : kept.length;
    shown.textContent = (left > most ? 'the first ' + most + ' of ' + left + ', of ' : left + ' of ') + all + ' findings';
    if (more) more.hidden = left <= most;
  }
  function set(key, value) {
    const wanted = state();
    if (value) wanted.set(key, value); else wanted.delete(key);
    const text = wanted.toString();
    history.replaceState(null, '', text ? '#?' + text : '#list');
    most = STEP;
    apply();
  }
  for (const f of fields) if (inputs[f]) inputs[f].addEventListener(f === 'text' ? 'input' : 'change', e => set(f, e.target.value));
  document.querySelectorAll('#list thead button').forEach((button, at) => {
    button.addEventListener('click', () => set('sort', (state().get('sort') || '0') === String(at) ? '-' + at : String(at)));
  });
  if (more) more.addEventListener('click', () => { most += STEP; apply(); });
  function open() {
    const target = location.hash.length > 1 && !location.hash.startsWith('#?') && get(decodeURIComponent(location.hash.slice(1)));
    const tool = target && target.closest('details');
    if (tool) { fill(tool); tool.open = true; target.scrollIntoView(); }
    if (location.hash.startsWith('#?')) apply();
  }
  addEventListener('hashchange', open);
  document.addEventListener('toggle', e => { if (e.target.open) fill(e.target); }, true);
  let closed = [];
  let before = STEP;
  addEventListener('beforeprint', () => {
    document.querySelectorAll('details').forEach(fill);
    closed = [...document.querySelectorAll('details:not([open])')];
    closed.forEach(d => { d.open = true; });
    before = most;
    most = Infinity;
    apply();
  });
  addEventListener('afterprint', () => { closed.forEach(d => { d.open = false; }); closed = []; most = before; apply(); });
  // Not on the drawing itself: listening would make it a stop of the keyboard.
  const map = document.querySelector('.map')?.parentElement;
  for (const kind of ['focusin', 'pointerover']) {
    if (map) map.addEventListener(kind, e => {
      const own = e.target.closest('.map a, .map g');
      if (own) point.textContent = own.querySelector('title').textContent;
    });
  }
  document.querySelectorAll('.filters').forEach(one => { one.hidden = false; });
  apply();
  open();
})();
