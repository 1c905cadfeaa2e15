/** Random programs in the source's style, made from a row of choices: fewer and smaller choices make smaller programs. */
import fc from 'fast-check';
import type { Sample } from './sample.ts';

const NUMBERS = [
  '2',
  '0',
  '1',
  '0.3',
  '3',
  '-1',
  '2.5',
  '(1 / 3)',
  '-0',
  '65536',
  'LIMIT',
  'p.k.gain',
  'NaN',
  '1e-7',
];
const ARITHMETIC = ['+', '-', '*', '-', '+', '/', '%'];
const BITS = ['&', '|', '^', '>>', '>>>', '<<'];
const COMPARISONS = ['>', '<', '>=', '<=', '===', '!=='];
const FIELDS = ['a', 'b', 'c', 'd'];

interface Place {
  /** Names that may be read. */
  names: string[];
  /** Those of them that may be assigned. */
  lets: string[];
  /** The object that remembers: a parameter of the function. */
  object: string;
  mayReturn: boolean;
  mayThrow: boolean;
  /** Functions from this number on may be called. */
  functions: number;
  depth: number;
}

class Writer {
  private readonly choices: readonly number[];
  private at = 0;
  private count = 0;
  private budget = 90;
  readonly kept: string[] = [];
  constructor(choices: readonly number[]) {
    this.choices = choices;
  }

  /** A choice from 0 to n - 1; 0 when the row is at its end. */
  pick(n: number): number {
    return (this.choices[this.at++] ?? 0) % n;
  }

  one<T>(all: readonly T[]): T {
    return all[this.pick(all.length)]!;
  }

  private field(place: Place): string {
    const object = this.one([place.object, 'p.s', 'p.t', 'p.same']);
    return `${object}.${this.one(FIELDS)}`;
  }

  value(place: Place, depth = 0): string {
    this.budget--;
    const next = () => this.value(place, depth + 1);
    const isLeaf = depth > 3 || this.budget < 0;
    switch (this.pick(isLeaf ? 6 : 24)) {
      case 0:
      case 1:
        return this.one(place.names);
      case 2:
        return this.one(NUMBERS);
      case 3:
      case 4:
        return this.field(place);
      case 5:
        return `p.io.a[${this.pick(4)}]`;
      case 6:
        return `(${next()} ${this.one(BITS)} ${next()})`;
      case 7:
      case 8:
        return `(${this.test(place, depth + 1)} ? ${next()} : ${next()})`;
      case 9:
        return `(${next()} ${this.one(['&&', '||'])} ${next()})`;
      case 10:
        return `${this.one(['-', '+', '-', '~', '!'])}(${next()})`;
      case 11:
      case 12:
        return `p.io.${this.one(['n', 'm'])}(${next()})`;
      case 13:
        return `p.io.a[${next()} & 3]`;
      case 14:
        return place.mayThrow ? `p.io.boom(${next()})` : this.field(place);
      case 15:
      case 16:
      case 17:
        return this.call(place, depth + 1);
      default:
        return `(${next()} ${this.one(ARITHMETIC)} ${next()})`;
    }
  }

  private call(place: Place, depth: number): string {
    const left = 4 - place.functions;
    if (left <= 0) return this.one(place.names);
    const callee = place.functions + this.pick(left);
    const object = this.one(['p.s', 'p.t', place.object]);
    return `f${callee}(p, ${object}, ${this.value(place, depth)}, ${this.value(place, depth)})`;
  }

  test(place: Place, depth = 0): string {
    switch (this.pick(depth > 3 ? 1 : 6)) {
      case 1:
        return `!(${this.test(place, depth + 1)})`;
      case 2:
        return `(${this.test(place, depth + 1)} && ${this.test(place, depth + 1)})`;
      case 3:
        return `(${this.test(place, depth + 1)} || ${this.test(place, depth + 1)})`;
      case 4:
        return this.one(['p.k.on', 'p.k.off', this.value(place, depth + 1)]);
      default:
        return `${this.value(place, depth + 1)} ${this.one(COMPARISONS)} ${this.value(place, depth + 1)}`;
    }
  }

  block(place: Place, most: number): string {
    const inner: Place = { ...place, names: [...place.names], lets: [...place.lets], depth: place.depth + 1 };
    let text = '';
    const statements = 1 + this.pick(most);
    for (let i = 0; i < statements && this.budget > 0; i++) text += this.statement(inner);
    return text;
  }

  private statement(place: Place): string {
    const isFlat = place.depth > 2;
    switch (this.pick(isFlat ? 11 : 16)) {
      case 8: {
        const name = `c${this.count++}`;
        const old = this.one([this.field(place), `p.io.a[${this.pick(4)}]`, this.one(place.names)]);
        place.names.push(name);
        return `const ${name} = ${old};`;
      }
      case 9:
        return `${this.field(place)} = ${this.one(place.names)};`;
      case 10:
        return `${this.field(place)} = ${this.field(place)} ${this.one(['+', '-', '*'])} ${this.one(place.names)};`;
      case 0:
        return `${this.field(place)} = ${this.value(place)};`;
      case 1: {
        const value = this.value(place);
        const name = `c${this.count++}`;
        place.names.push(name);
        return `const ${name} = ${value};`;
      }
      case 2: {
        const value = this.value(place);
        const name = `v${this.count++}`;
        place.names.push(name);
        place.lets.push(name);
        return `let ${name} = ${value};`;
      }
      case 3:
        if (place.lets.length > 0)
          return `${this.one(place.lets)} ${this.one(['=', '+=', '*=', '-='])} ${this.value(place)};`;
        return `p.io.see(${this.value(place)});`;
      case 4:
        return `${this.field(place)} ${this.one(['+=', '-=', '*=', '/='])} ${this.value(place)};`;
      case 5:
        return `p.io.a[${this.one([String(this.pick(4)), `${this.value(place, 3)} & 3`])}] = ${this.value(place)};`;
      case 6:
        return `p.io.see(${this.value(place)}, ${this.value(place)}, ${this.value(place)});`;
      case 7:
        return `${this.call(place, 0)};`;
      case 11:
        return `if (${this.test(place)}) {${this.block(place, 3)}}`;
      case 12:
        return `if (${this.test(place)}) {${this.block(place, 3)}} else {${this.block(place, 3)}}`;
      case 13: {
        if (!place.mayReturn) return `p.io.n(${this.value(place)});`;
        return `if (${this.test(place)}) {${this.block(place, 2)} return ${this.value(place)};}`;
      }
      case 14: {
        const i = `i${this.count++}`;
        const inner = { ...place, names: [...place.names, i], mayReturn: false };
        return `for (let ${i} = 0; ${i} < ${1 + this.pick(3)}; ${i}++) {${this.block(inner, 3)}}`;
      }
      default: {
        const inner = { ...place, mayReturn: false };
        return `try {${this.block({ ...inner, mayThrow: true }, 3)}} catch (e) {${this.block(inner, 2)}}`;
      }
    }
  }

  routine(name: string, functions: number): string {
    this.budget = 45;
    const isFrame = name === 'frame';
    const object = isFrame ? 'p.t' : 'o';
    const place: Place = {
      names: ['x', 'y'],
      lets: [],
      object,
      mayReturn: true,
      mayThrow: this.pick(12) === 7,
      functions,
      depth: 0,
    };
    const body = this.block(place, 6);
    const end = this.pick(3) === 2 ? '' : ` return ${this.value({ ...place, names: ['x', 'y'] })};`;
    if (!isFrame && this.pick(2) === 1) this.kept.push(name);
    return `function ${name}(p, ${isFrame ? '' : 'o, '}x, y) {${body}${end}}\n`;
  }
}

export function programOf(choices: readonly number[]): Sample {
  const writer = new Writer(choices);
  const frame = writer.routine('frame', 0);
  const functions: string[] = [];
  for (let i = 0; i < 4; i++) functions.unshift(writer.routine(`f${i}`, i + 1));
  return {
    // callees first: the interpreter does not hoist
    source: `const LIMIT = 4 / 3;\n${functions.join('')}${frame}`,
    s: { a: 1.25, b: -0.5, c: 3, d: 0.7 },
    t: { a: 10, b: 20.5, c: -4, d: 0.1 },
    k: { gain: 0.15, on: true, off: false },
    kept: writer.kept,
    isBlind: writer.pick(5) === 4,
  };
}

export const choices: fc.Arbitrary<number[]> = fc.array(fc.nat(720_719), {
  minLength: 20,
  maxLength: 400,
  size: 'max',
});
