/** Rows 0, 10, 20 ... ms with two channels. */
export function rows(count: number, from = 0): string {
  return Array.from(
    { length: count },
    (_, row) => `${(from + row) * 10},${500 + (row % 3)},${600 - (row % 2)}\n`,
  ).join('');
}

export const HEADER = 'time_ms,thumb,index\n';
/** A recording without a fault. */
export const GOOD = HEADER + rows(60);

/**
 * Recordings with one thing wrong: title, text, line:column counted by hand, what the message must name as seen,
 * and as expected.
 */
export const BROKEN_RESTS: [string, string, string, RegExp, RegExp][] = [
  ['being empty', '', '1:1', /empty file/, /a header and rows/],
  ['having comments only', '# rest\n# nothing\n', '1:1', /empty file/, /a header and rows/],
  ['having a header only', HEADER, '1:1', /header without rows/, /at least 50 rows/],
  ['being too short', `# rest\n${HEADER}${rows(49)}`, '2:1', /49 rows/, /at least 50 rows/],
  ['having no header', rows(60), '1:1', /the number 0 where the header should be/, /time_s, time_ms/],
  [
    'a time without a unit',
    GOOD.replace('time_ms', 'time'),
    '1:1',
    /the first column "time"/,
    /time with its unit/,
  ],
  [
    'a first column that is no time',
    'thumb,index\n1,2\n',
    '1:1',
    /the first column "thumb"/,
    /time with its unit/,
  ],
  ['a time column alone', 'time_ms\n0\n10\n', '1:1', /time column alone/, /at least one channel/],
  ['a channel without a name', GOOD.replace('thumb', ''), '1:9', /without a name/, /a name of its own/],
  ['two channels of one name', GOOD.replace('index', 'thumb'), '1:15', /"thumb" again/, /a name of its own/],
  ['text for counts', GOOD.replace('\n20,502,600', '\n20,502,high'), '4:8', /"high"/, /counts of 0 to 4095/],
  ['NaN', GOOD.replace('\n20,502,600', '\n20,NaN,600'), '4:4', /"NaN"/, /counts of 0 to 4095/],
  ['infinity', GOOD.replace('\n20,502,600', '\n20,Infinity,600'), '4:4', /"Infinity"/, /counts/],
  ['hexadecimal', GOOD.replace('\n20,502,600', '\n20,0x1F6,600'), '4:4', /"0x1F6"/, /counts/],
  ['an empty cell', GOOD.replace('\n20,502,600', '\n20,,600'), '4:4', /an empty cell/, /counts/],
  ['a negative count', GOOD.replace('\n20,502,600', '\n20,502,-1'), '4:8', /-1 counts/, /0 to 4095/],
  ['counts over 12 bits', GOOD.replace('\n20,502,600', '\n20,4096,600'), '4:4', /4096 counts/, /0 to 4095/],
  [
    'a row with a cell too few',
    GOOD.replace('\n20,502,600', '\n20,502'),
    '4:4',
    /2 cells/,
    /3 cells, as in the header/,
  ],
  [
    'a row with a cell too many',
    GOOD.replace('\n20,502,600', '\n20,502,600,7'),
    '4:12',
    /4 cells/,
    /3 cells/,
  ],
  [
    'a time that stands still',
    GOOD.replace('\n20,502,600', '\n10,502,600'),
    '4:1',
    /the time 10, not after that of line 3/,
    /grow/,
  ],
  [
    'a time that runs back',
    GOOD.replace('\n20,502,600', '\n5,502,600'),
    '4:1',
    /the time 5, not after/,
    /grow/,
  ],
  ['a time that is no number', GOOD.replace('\n20,502,600', '\nnoon,502,600'), '4:1', /"noon"/, /a time/],
  ['a NUL character', GOOD.replace('\n20,502', '\n20,\u000002'), '4:4', /U\+0000/, /CSV/],
  [
    'another separator further down',
    GOOD.replace('\n20,502,600', '\n20;502;600'),
    '4:1',
    /1 cells/,
    /3 cells/,
  ],
  [
    'Windows line ends and text',
    GOOD.replace('502,600', '502,x').replace(/\n/g, '\r\n'),
    '4:8',
    /"x"/,
    /counts/,
  ],
  ['a wrong value after spaces', GOOD.replace('\n20,502,600', '\n20,  x ,600'), '4:6', /"x"/, /counts/],
];
