'use strict';
(() => {
  const rows = [...document.querySelectorAll('#list tbody tr[data-level]')];
  const fields = ['level', 'rule', 'library', 'machine', 'clamping', 'news'];
  const inputs = Object.fromEntries(fields.map(f => [f, document.getElementById('f-' + f)]));
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
    if (sort) order(Number(sort.replace('-', '')), sort.startsWith('-'));
  }
  function order(column, down) {
    const body = document.querySelector('#list tbody');
    const key = row => row.cells[column].dataset.key || row.cells[column].textContent;
    const sorted = [...rows].sort((a, b) => key(a).localeCompare(key(b), undefined, {numeric: true}));
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
    button.addEventListener('click', () => set('sort', state().get('sort') === String(at) ? '-' + at : String(at)));
  });
  function open() {
    const target = location.hash.length > 1 && !location.hash.startsWith('#?') && document.getElementById(decodeURIComponent(location.hash.slice(1)));
    if (target && target.tagName === 'DETAILS') { target.open = true; target.scrollIntoView(); }
    if (location.hash.startsWith('#?')) apply();
  }
  addEventListener('hashchange', open);
  addEventListener('beforeprint', () => document.querySelectorAll('details').forEach(d => { d.open = true; }));
  document.querySelectorAll('.filters').forEach(one => { one.hidden = false; });
  apply();
  open();
})();
