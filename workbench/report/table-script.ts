/**
 * Sorting and searching in the full table, for the report's one script element. The page is complete without
 * it. Plain text, not a function: it must stay byte for byte what the page's content policy names by its hash.
 */
export const TABLE_SCRIPT = `(function () {
  'use strict';
  var table = document.getElementById('all-settings');
  if (!table) return;
  var body = table.tBodies[0];
  var rows = Array.prototype.slice.call(body.rows);
  var heads = Array.prototype.slice.call(table.tHead.rows[0].cells);
  function key(row, column) {
    var text = row.cells[column].textContent;
    if (column === 0) return text;
    if (text.indexOf('endless') >= 0) return Infinity;
    var number = parseFloat(text.replace(/[<>]/, '').replace('\\u2212', '-').replace(/[\\u202f\\u00a0]/g, ''));
    return text.charAt(0) === '<' ? number / 2 : number;
  }
  heads.forEach(function (head, column) {
    var button = document.createElement('button');
    button.type = 'button';
    while (head.firstChild) button.appendChild(head.firstChild);
    head.appendChild(button);
    button.addEventListener('click', function () {
      var up = head.getAttribute('aria-sort') !== 'ascending';
      heads.forEach(function (other) { other.removeAttribute('aria-sort'); });
      head.setAttribute('aria-sort', up ? 'ascending' : 'descending');
      rows.map(function (row, index) { return { row: row, key: key(row, column), index: index }; })
        .sort(function (a, b) {
          var order = a.key < b.key ? -1 : a.key > b.key ? 1 : 0;
          return (up ? order : -order) || a.index - b.index;
        })
        .forEach(function (entry) { body.appendChild(entry.row); });
    });
  });
  var finder = document.getElementById('finder');
  var count = document.getElementById('finder-count');
  finder.hidden = false;
  finder.querySelector('input').addEventListener('input', function (event) {
    var words = event.target.value.toLowerCase().split(' ');
    var shown = 0;
    rows.forEach(function (row) {
      var text = row.cells[0].textContent.toLowerCase();
      row.hidden = !words.every(function (word) { return text.indexOf(word) >= 0; });
      if (!row.hidden) shown += 1;
    });
    count.textContent = shown + ' of ' + rows.length + ' rows';
  });
})();`;
