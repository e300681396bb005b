'use strict';
(() => {
  const rows = [...document.querySelectorAll('#list tbody tr[data-level]')];
  const fields = ['level', 'rule', 'library', 'machine', 'clamping', 'news'];
  const inputs = Object.fromEntries(fields.map(f => [f, document.getElementById('f-' + f)]));
  const levels = ['error', 'warning', 'none', 'note'];
  let sorting = '0';
  const names = new Intl.Collator(undefined, {numeric: true});
  const shown = document.getElementById('shown');
  const columns = {rule: 3, library: 4, machine: 5};
  const value = (row, field) => field in columns ? row.cells[columns[field]].textContent : row.dataset[field];
  const state = () => new URLSearchParams(location.hash.startsWith('#?') ? location.hash.slice(2) : '');
  function apply() {
    const wanted = state();
    let count = 0;
    for (const f of fields) if (inputs[f]) inputs[f].value = wanted.get(f) || '';
    for (const row of rows) {
      const fits = fields.every(f => !wanted.get(f) || value(row, f) === wanted.get(f));
      row.hidden = !fits;
      if (fits) count += 1;
    }
    if (shown) shown.textContent = count + ' of ' + rows.length + ' findings';
    const sort = wanted.get('sort');
    if ((sort || '0') !== sorting) order(Number((sort || '0').replace('-', '')), (sort || '').startsWith('-'));
    sorting = sort || '0';
  }
  function order(column, down) {
    const body = document.querySelector('#list tbody');
    const key = row => column === 0 ? String(levels.indexOf(row.dataset.level)) : row.cells[column].textContent;
    const sorted = rows.map(row => [key(row), row]).sort((a, b) => names.compare(a[0], b[0])).map(pair => pair[1]);
    if (down) sorted.reverse();
    body.append(...sorted);
    document.querySelectorAll('#list thead th').forEach((th, at) => {
      th.setAttribute('aria-sort', at === column ? (down ? 'descending' : 'ascending') : 'none');
    });
  }
  function set(key, value) {
    const wanted = state();
    if (value) wanted.set(key, value); else wanted.delete(key);
    const text = wanted.toString();
    history.replaceState(null, '', text ? '#?' + text : '#list');
    apply();
  }
  for (const f of fields) if (inputs[f]) inputs[f].addEventListener('change', e => set(f, e.target.value));
  document.querySelectorAll('#list thead button').forEach((button, at) => {
    button.addEventListener('click', () => set('sort', (state().get('sort') || '0') === String(at) ? '-' + at : String(at)));
  });
  function open() {
    const target = location.hash.length > 1 && !location.hash.startsWith('#?') && document.getElementById(decodeURIComponent(location.hash.slice(1)));
    const tool = target && target.closest('details');
    if (tool) { tool.open = true; target.scrollIntoView(); }
    if (location.hash.startsWith('#?')) apply();
  }
  addEventListener('hashchange', open);
  let closed = [];
  addEventListener('beforeprint', () => { closed = [...document.querySelectorAll('details:not([open])')]; closed.forEach(d => { d.open = true; }); });
  addEventListener('afterprint', () => { closed.forEach(d => { d.open = false; }); closed = []; });
  document.querySelectorAll('.filters').forEach(one => { one.hidden = false; });
  apply();
  open();
})();
