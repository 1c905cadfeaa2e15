import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { shiftLiterals } from '../../specialise/literal-pass.ts';
import { exactLiteral, interpreterValue, isPlain } from '../../specialise/literals.ts';
import { noInterpreter, runOnInterpreter } from '../interpreter.ts';
import { read, someDoubles } from './literal-model.ts';

const IS_LONG = process.env.TAUTLINE_VERIFY === '1';

function withSeed(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1664525 + 1013904223) % 2 ** 32;
    return state / 2 ** 32;
  };
}

describe('exactLiteral', () => {
  it('gives text that a reader written from the C source reads back bit by bit', () => {
    const wrong = someDoubles(IS_LONG ? 200_000 : 4000, withSeed(5)).filter(
      (v) => !Object.is(read(exactLiteral(v)), v),
    );
    expect(wrong).toEqual([]);
  });

  it('gives text that node reads as the same number', () => {
    const wrong = someDoubles(4000, withSeed(6)).filter(
      (v) => !Object.is(new Function(`return ${exactLiteral(v)}`)(), v),
    );
    expect(wrong).toEqual([]);
  });

  it('holds for any double', () => {
    fc.assert(
      fc.property(fc.double(), (v) => {
        expect(read(exactLiteral(v))).toBe(v);
      }),
    );
  });

  it.each([
    [0, '0'],
    [5, '5'],
    [-5, '(-5)'],
    [0.5, '.5'],
    [0.3, '(3/10)'],
    [-0.3, '(-(3/10))'],
    [1e22, '1e22'],
    [-0, '(0/-1)'],
    [Number.NaN, '(0/0)'],
    [Number.NEGATIVE_INFINITY, '(-1/0)'],
  ])('writes %d as %s', (value, text) => {
    expect(exactLiteral(value)).toBe(text);
  });

  it('knows which numbers cost an operator', () => {
    expect([1, -1, 0.5, 1e3, 0].map(isPlain)).toEqual([true, true, true, true, true]);
    expect([0.3, -0.3, 1e300, Number.NaN, 0.15].map(isPlain)).toEqual([false, false, false, false, false]);
  });

  // 45 characters a number at most: the program stays below the interpreter's memory
  it.skipIf(noInterpreter)('gives text that the interpreter itself reads back', { timeout: 60_000 }, () => {
    const values = someDoubles(IS_LONG ? 6000 : 400, withSeed(7));
    for (let start = 0; start < values.length; start += 200) {
      const part = values.slice(start, start + 200);
      const lines = part.map((v, i) => `d[${i}]=${exactLiteral(v)};`).join('\n');
      const program = `var d=new Float64Array(${part.length});var b=new Uint8Array(d.buffer);\n${lines}
        for(var i=0;i<d.length;i++)print(b.slice(i*8,i*8+8).join());`;
      const wanted = part.map((v) => new Uint8Array(Float64Array.of(v).buffer).join());
      // a NaN is a NaN
      const plain = (line: string, i: number) => (Number.isNaN(part[i]) ? 'NaN' : line);
      expect(runOnInterpreter(program).lines.map(plain)).toEqual(wanted.map(plain));
    }
  });
});

describe('interpreterValue', () => {
  it('reads decimals as the reader written from the C source does', () => {
    const texts = [
      '0.3',
      '.15',
      '0.85',
      '3.14159',
      '1e5',
      '1.5e-7',
      '5.',
      '12345.678e10',
      '1E3',
      '9e-20',
      '007',
      '99999999999999999999',
    ];
    for (let i = 0; i < 1000; i++) texts.push(`${i % 37}.${i * 7919}`);
    expect(texts.map(interpreterValue)).toEqual(texts.map(read));
  });

  it('is not the correctly rounded value for decimals known to come out one unit off', () => {
    // seen on 2v29.277
    for (const text of ['0.3', '0.15', '0.85', '0.95', '3.14159'])
      expect(interpreterValue(text)).not.toBe(Number(text));
  });
});

describe('shiftLiterals', () => {
  it('leaves a text in which all that is read is right', () => {
    const text = 'var a=.3,b=0.5,c=[1e3,0.85*x,0x1F],d=-3.14159;f(.15).toFixed(2);g={p:0.95}';
    const shifted = shiftLiterals(text);
    expect(shifted).toBe(
      'var a=(3/10),b=0.5,c=[1e3,(85/100)*x,0x1F],d=-(314159/1e5);f((15/100)).toFixed(2);g={p:(95/100)}',
    );
    expect(shiftLiterals(shifted)).toBe(shifted);
  });

  it('keeps what follows a word apart from it', () => {
    expect(shiftLiterals('function f(){return.3}')).toBe('function f(){return(3/10)}');
  });
});
