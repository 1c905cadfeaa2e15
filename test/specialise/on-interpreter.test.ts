import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exactLiteral } from '../../specialise/literals.ts';
import { noInterpreter, runOnInterpreter } from '../interpreter.ts';
import { CASES } from './cases.ts';
import { choices, programOf } from './random-program.ts';
import { CALLS, GIVEN, hasRest, make, type Sample, wholeSource } from './sample.ts';
import { tools } from './tools.ts';

const IS_LONG = process.env.TAUTLINE_VERIFY === '1';

/** The same natives and bits of doubles for node and the interpreter; its whole numbers have no -0. */
const HOST = `
var B=new Float64Array(1),U=new Uint8Array(B.buffer),G=[${GIVEN.map(exactLiteral).join()}];
function bits(v){if(typeof v!=="number")return String(v);if(v!==v)return "NaN";B[0]=v===0?0:v;return U.join()}
function hostOf(log){var c=0,a=new Float64Array([.5,-1,2,3]);
function give(name){return function(v){log(name+" "+bits(v));a[3]=c+.25;return G[c++%G.length]}}
return {a:a,n:give("n"),m:give("m"),see:function(u,v,w,x,y){log("see "+[bits(u),bits(v),bits(w),bits(x),bits(y)].join("/"))},
boom:function(v){log("boom "+bits(v));if(v>2)throw "boom";return v+.5}}}
function attempt(log,f){var r;try{r=f();log("gave "+bits(r))}catch(e){log("threw")}}
`;

function driver(sample: Sample, frame: string, rest: string, peek: string): string {
  return (sample.calls ?? CALLS)
    .map(([x, y]) => {
      const [u, v] = [exactLiteral(x), exactLiteral(y)];
      return `attempt(log,function(){return ${frame.replace('X', u).replace('Y', v)}});${rest}${peek}`;
    })
    .join('\n');
}

function inNode(sample: Sample): string[] {
  const numbers = (o: object) =>
    `{${Object.entries(o)
      .map(([k, v]) => `${k}:${v}`)
      .join()}}`;
  const s = `s=${numbers(sample.s ?? {})},p={s:s,t:${numbers(sample.t ?? {})},same:s,k:K,io:host}`;
  const act = (f: string) => `attempt(log,function(){return ${f}(p)});`;
  const text = `${HOST}\nvar host=hostOf(log);\n${wholeSource(sample)}\nvar ${s};
    ${driver(sample, 'frame(p,X,Y)', hasRest(sample) ? act('rest') : '', sample.isBlind ? '' : act('peek'))}`;
  const lines: string[] = [];
  new Function('log', 'K', text)((line: string) => lines.push(line), sample.k ?? {});
  return lines;
}

function programText(sample: Sample): string {
  const made = make(tools, sample);
  const act = (f: string) => `attempt(log,function(){return ${f}()});`;
  return `(function(){var log=print,host=hostOf(log);${made.text}\n${driver(
    sample,
    `${made.frame}(X,Y)`,
    made.rest ? act(made.rest) : '',
    made.peek ? act(made.peek) : '',
  )}})();`;
}

/** Runs again what the Linux build stopped by itself. */
function run(program: string): string[] {
  for (let attempt = 0; ; attempt++) {
    try {
      return runOnInterpreter(program).lines;
    } catch (error) {
      if (attempt > 4) throw error;
    }
  }
}

/** Samples whose program does something else on the interpreter than their functions in node. */
function differing(samples: Record<string, Sample>): string[] {
  const all = Object.entries(samples);
  const wrong: string[] = [];
  for (let start = 0; start < all.length; start += 20) {
    const part = all.slice(start, start + 20);
    const program = part.map(([, sample], i) => `print("#${i}");\n${programText(sample)}`).join('\n');
    const outcomes = run(HOST + program)
      .join('\n')
      .split(/#\d+\n?/)
      .slice(1);
    part.forEach(([name, sample], i) => {
      const wanted = inNode(sample);
      const actual = outcomes[i]!.split('\n').filter((line) => line !== '');
      const at = wanted.findIndex((line, j) => line !== actual[j]);
      if (at >= 0 || actual.length !== wanted.length) {
        wrong.push(
          `${name}: ${at} ${wanted[at]} became ${actual[at]}\n${sample.source}\n${make(tools, sample).text}`,
        );
      }
    });
  }
  return wrong;
}

/**
 * Without what tells its numbers from node's by themselves: the remainder of -Infinity (0 there), and the sign of a
 * zero, which whole numbers do not have there and a division shows.
 */
function withoutDivision(sample: Sample): Sample {
  return { ...sample, source: sample.source.replaceAll(' % ', ' - ').replace(/ \/(?=[ =])/g, ' *') };
}

describe.skipIf(noInterpreter)('on the interpreter programs do what their functions do in node', () => {
  it('in all cases', { timeout: 60_000 }, () => {
    expect(differing(CASES)).toEqual([]);
  });

  it('when made at random', { timeout: 300_000 }, () => {
    const seed = 20261125;
    const rows = fc.sample(choices, { numRuns: IS_LONG ? 400 : 40, seed });
    const samples = Object.fromEntries(
      rows.map((row, i) => [`seed ${seed}, number ${i}`, withoutDivision(programOf(row))]),
    );
    expect(differing(samples)).toEqual([]);
  });
});
