import { describe, expect, it } from 'vitest';
import { make, type Sample } from './sample.ts';
import { tools } from './tools.ts';

/** Body of the frame function, blind to the outside. */
function bodyOf(source: string, more: Partial<Sample> = {}): string {
  const made = make(tools, { source, isBlind: true, s: { a: 1.5, b: 2 }, ...more });
  const start = made.text.indexOf('{', made.text.indexOf(`function ${made.frame}(`)) + 1;
  return made.text.slice(start, made.text.lastIndexOf('}'));
}

describe('printed expressions', () => {
  it.each([
    ['x - (y - 1)', '$a-($b-1)'],
    ['x - y - 1', '$a-$b-1'],
    ['x - -y', '$a-(-$b)'],
    ['x + +y', '$a+(+$b)'],
    ['x - +y', '$a-+$b'],
    ['-(-x)', '-(-$a)'],
    ['+(+x)', '+(+$a)'],
    ['-(+x)', '-+$a'],
    ['!(!x)', '!!$a'],
    ['-(x + y)', '-($a+$b)'],
    ['-x * y', '-$a*$b'],
    ['-(x * y)', '-($a*$b)'],
    ['(x + y) * 2', '($a+$b)*2'],
    ['x / (y * 2)', '$a/($b*2)'],
    ['x % (y % 2)', '$a%($b%2)'],
    ['x * -2', '$a*(-2)'],
    ['x - -2', '$a-(-2)'],
    ['(x & y) === 0', '($a&$b)===0'],
    ['x & (y === 0 ? 1 : 0)', '$a&($b===0?1:0)'],
    ['(x | y) ^ (x & y)', '($a|$b)^$a&$b'],
    ['(x << 2) + y', '($a<<2)+$b'],
    ['x << (y + 2)', '$a<<$b+2'],
    ['(x > y) === (y > x)', '$a>$b===$b>$a'],
    ['(x || y) && x', '($a||$b)&&$a'],
    ['x || (y && x)', '$a||$b&&$a'],
    ['(x && y) || x', '$a&&$b||$a'],
    ['x && (y && x)', '$a&&($b&&$a)'],
    ['(x ? y : 1) + 2', '($a?$b:1)+2'],
    ['x ? y : x ? 1 : 2', '$a?$b:$a?1:2'],
    ['(x ? y : x) ? 1 : 2', '($a?$b:$a)?1:2'],
    ['(x || y) ? 1 : 2', '$a||$b?1:2'],
    ['typeof x', 'typeof $a'],
    ['typeof -x', 'typeof -$a'],
    ['typeof (x + y)', 'typeof ($a+$b)'],
    ['~x | 0', '~$a|0'],
    ['"\\"\\u00e9"', '"\\"\\xe9"'],
    ['x === undefined', '$a===undefined'],
    ['x === null', '$a===null'],
    ['x + 0', '$a+0'],
    ['x * 1', '$a*1'],
  ])('%s', (expression, text) => {
    const more = expression.includes('y') ? '' : ' p.io.see(y);';
    expect(bodyOf(`function frame(p, x, y) {${more} return ${expression}; }`).replace(/^a\(\$b\);/, '')).toBe(
      `return ${text}`,
    );
  });

  it('fold what is known in the order of the source, nothing else', () => {
    expect(bodyOf('const C = 2; function frame(p, x) { return C * 3 + x + 1 + 2 + (1 + 2); }')).toBe(
      'return 6+$a+1+2+3',
    );
  });

  it('name numbers that would be divided in every frame, once for all uses', () => {
    const text = make(tools, {
      source: 'function frame(p, x) { return x * 0.3 + 0.3 / x; }',
      isBlind: true,
    }).text;
    expect(text).toBe('var a=(3/10);function b($a){return $a*a+a/$a}');
  });

  it('refuse text that boards without Unicode do not know', () => {
    expect(() => bodyOf('function frame(p) { p.io.see("\\u20ac"); }')).toThrow('ASCII');
  });
});

describe('printed statements', () => {
  it.each([
    ['a guard for a choice that keeps', 'p.s.a = x > 0 ? x : p.s.a; p.io.see(p.s.a);', 'if($a>0){a=$a}b(a)'],
    ['a guard with a not', 'p.s.a = x > 0 ? p.s.a : x; p.io.see(p.s.a);', 'if(!($a>0)){a=$a}b(a)'],
    ['a short assignment', 'p.s.a = p.s.a * x; p.io.see(p.s.a);', 'b(a*=$a)'],
    ['no short one from the right', 'p.s.a = x - p.s.a; p.io.see(p.s.a);', 'b(a=$a-a)'],
    ['no assignment of itself', 'p.s.a = x; p.s.a = p.s.a; p.io.see(p.s.a);', 'a(b=$a)'],
    [
      'chains of else',
      'if (x > 1) p.io.see(1); else if (x > 0) p.io.see(2); else p.io.see(3);',
      'if($a>1){a(1)}else if($a>0){a(2)}else{a(3)}',
    ],
    ['a truth passed on as a test', 'if (isHigh(x)) p.io.see(1);', 'if($a>1){a(1)}'],
    ['an unrolled loop', 'for (let i = 0; i < 3; i++) p.io.a[i] = x * i;', 'a[0]=$a*0;a[1]=$a*1;a[2]=$a*2'],
    ['a branch taken already', 'if (p.k.on) p.io.see(1); else p.io.see(2);', 'a(1)'],
    ['try', 'try { p.io.see(x); } catch (e) { p.io.see(0); }', 'try{a($a)}catch(_){a(0)}'],
  ])('%s', (_, body, text) => {
    const source = `function isHigh(v) { if (v > 1) return true; return false; } function frame(p, x) { ${body} }`;
    expect(bodyOf(source, { k: { on: true } })).toBe(text);
  });

  it('end a return with its value on the same line', () => {
    const made = make(tools, { source: 'function frame(p, x) { return (\n x +\n 1); }', isBlind: true });
    expect(made.text).toContain('return $a+1');
  });
});

describe('slots', () => {
  const source = `function frame(p, x) { p.s.written = p.s.fixed * x; p.s.own = p.s.own + x; p.io.see(p.s.read); }
    function rest(p) { p.s.read = p.s.read + 1; }`;
  const made = make(tools, { source, isBlind: true, s: { written: 1, fixed: 2.5, own: 3, read: 4 } });

  it('are folded when nothing writes them', () => {
    expect(made.nameOf('s.fixed')).toBeUndefined();
    expect(made.text).toMatch(/=4/);
    expect(made.text).not.toMatch(/=2\.5/);
  });

  it('are dropped when nothing reads them', () => {
    expect(made.nameOf('s.written')).toBeUndefined();
  });

  it('stay when another function writes or reads them, with their initial value', () => {
    const name = made.nameOf('s.read')!;
    expect(made.text).toMatch(new RegExp(`\\b${name}=4\\b`));
  });

  it('of a tree that served another program are not taken for fixed', () => {
    const { slotsOf, Native, parseSource, specialise } = tools;
    const see = new Native('see', 'host.see');
    const tree = { s: slotsOf('s', { a: 1 }), io: { see } };
    const program = parseSource('function show(p) { p.io.see(p.s.a); } function set(p, x) { p.s.a = x; }');
    const show = { name: 'show', known: [tree], isHot: true };
    specialise(program, [show], new Set(), [see]);
    const second = specialise(program, [show, { name: 'set', known: [tree], isHot: false }], new Set(), [
      see,
    ]);
    expect(second.declarations).toMatch(/=1\b/);
    expect(second.routines[0]!.pieces.map((piece) => piece.text).join('')).not.toContain('(1)');
  });
});

describe('natives', () => {
  it('are made in their order, with those that they mention, without those unused', () => {
    const { Native, parseSource, specialise } = tools;
    const buffer = new Native('buffer', 'new ArrayBuffer(8)');
    const words = new Native('words', 'new Uint16Array(#buffer)');
    const other = new Native('other', 'new Uint8Array(#buffer)');
    const made = specialise(
      parseSource('function frame(p, x) { p.words[1] = x; }'),
      [{ name: 'frame', known: [{ words }], isHot: true }],
      new Set(),
      [buffer, words, other],
    );
    expect(made.initialisers).toBe('b=new ArrayBuffer(8);a=new Uint16Array(b);');
    expect(made.nameOf(other)).toBeUndefined();
  });

  it('keep their object when they are methods', () => {
    const source = `function next(s) { s.a = s.a + 1; return s.a; }
      function frame(p, x) { p.io.see(p.io.a.plus(next(p.s)) - x); }`;
    const made = make(tools, { source, s: { a: 1.5 }, isBlind: true });
    const seen: unknown[] = [];
    const a = {
      one: 40,
      plus(v: number) {
        return this.one + v;
      },
    };
    new Function('host', `${made.text}${made.frame}(0.5)`)({ a, see: (v: unknown) => seen.push(v) });
    expect(seen).toEqual([42]);
  });
});
