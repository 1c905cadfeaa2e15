import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseDocument } from 'yaml';
import { type FileValue, withValues } from '../../../workbench/rig/put-values.ts';
import { readYaml } from '../../../workbench/rig/yaml-source.ts';

const put = (text: string, ...values: FileValue[]) => withValues(readYaml(text, 'rig.yaml'), values);
const RADIUS = { path: ['fingers', 'index', 'spool', 'radius'], text: '15.7 mm' };

describe('values put into a rig file', () => {
  it.each([
    ['a value that is there', 'index: { pin: 33, spool: { radius: 15 mm } } # r', '15 mm', '15.7 mm'],
    ['a quoted one', 'index: {spool: {radius: "15 mm"}}', '"15 mm"', '15.7 mm'],
    ['a mapping in braces', 'index: { pin: 33 }  # first', '33 }', '33, spool: { radius: 15.7 mm } }'],
    ['braces inside braces', 'index: {pin: 33, spool: {}}', '{}', '{ radius: 15.7 mm }'],
    ['one with a comma at its end', 'index: { pin: 33, }', '33,', '33, spool: { radius: 15.7 mm },'],
  ])('%s: only its place changes', (_, line, from, to) => {
    const text = `# a\nfingers:\n  ${line}\n  ring: { pin: 35 }\n# z\n`;
    expect(put(text, RADIUS)).toBe(text.replace(from, to));
  });

  it('get a line of their own in a block, behind the entries on one line', () => {
    const text = `fingers:\n  index:\n    pin: 33 # blue\n    guides:\n      - { wrap: 90 deg, friction: 0.1 }\n  ring: { pin: 35 }\n`;
    const line = '    pin: 33 # blue\n';
    expect(put(text, RADIUS)).toBe(text.replace(line, `${line}    spool: { radius: 15.7 mm }\n`));
  });

  it('go ahead of a block of blocks', () => {
    const text =
      'eachFinger:\n  guides:\n    - { wrap: 90 deg, friction: 0.1 }\nfingers: {index: {pin: 33}}\n';
    expect(put(text, { path: ['eachFinger', 'spool', 'radius'], text: '16 mm' })).toBe(
      text.replace('  guides', '  spool: { radius: 16 mm }\n  guides'),
    );
  });

  it('fill an empty key, and end a last line that has no end', () => {
    expect(put('fingers:\n  index:\n    spool:\n    pin: 33', RADIUS)).toBe(
      'fingers:\n  index:\n    spool: { radius: 15.7 mm }\n    pin: 33',
    );
    expect(put('fingers:\n  index:\n    pin: 33', RADIUS)).toBe(
      'fingers:\n  index:\n    pin: 33\n    spool: { radius: 15.7 mm }\n',
    );
  });

  it('keep the line ends of the file', () => {
    expect(put('fingers:\r\n  index:\r\n    pin: 33\r\n', RADIUS)).toBe(
      'fingers:\r\n  index:\r\n    pin: 33\r\n    spool: { radius: 15.7 mm }\r\n',
    );
  });

  it('are refused where the way leads through an alias', () => {
    expect(put('fingers:\n  ring: &r { pin: 35 }\n  index: *r\n', RADIUS)).toBeUndefined();
  });

  it('give what setting them in the parsed document gives, whatever the layout', () => {
    const key = fc.constantFrom('a', 'b', 'c');
    const tree = fc.letrec((tie) => ({
      node: fc.oneof({ depthSize: 'small' }, fc.integer({ min: 0, max: 99 }), tie('map')),
      map: fc.dictionary(key, tie('node'), { minKeys: 1, maxKeys: 3 }),
    })).map as fc.Arbitrary<Record<string, unknown>>;
    const path = fc.array(key, { minLength: 1, maxLength: 4 });
    fc.assert(
      fc.property(tree, path, fc.integer({ min: 0, max: 4 }), (value, keys, flowFrom) => {
        const document = parseDocument(layOut(value, 0, flowFrom));
        const text = String(document);
        const before = document.toJS();
        const holder = keys.slice(0, -1).reduce<unknown>((at, step) => {
          return typeof at === 'object' && at !== null ? (at as Record<string, unknown>)[step] : at;
        }, before);
        const target =
          typeof holder === 'object' && holder !== null ? (holder as never)[keys.at(-1)!] : holder;
        const isReachable = typeof holder !== 'number' && typeof target !== 'object';
        const made = put(text, { path: keys, text: '1234' });
        expect(made !== undefined).toBe(isReachable);
        if (!isReachable) return;
        document.setIn(keys, 1234);
        expect(parseDocument(made!).toJS()).toEqual(document.toJS());
      }),
    );
  });
});

/** A tree as YAML, in braces from a depth on. */
function layOut(value: unknown, depth: number, flowFrom: number): string {
  if (typeof value !== 'object' || value === null) return `${String(value)}\n`;
  const entries = Object.entries(value);
  if (depth >= flowFrom) return `${JSON.stringify(value)}\n`;
  const lines = entries.map(([name, inner]) => {
    const isBlock = typeof inner === 'object' && depth + 1 < flowFrom;
    return `${'  '.repeat(depth)}${name}:${isBlock ? '\n' : ' '}${layOut(inner, depth + 1, flowFrom)}`;
  });
  return lines.join('');
}
