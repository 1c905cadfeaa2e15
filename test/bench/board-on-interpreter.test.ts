import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { about } from '../../bench/board/about.ts';
import { type FrameProgram, instructionsPerFrame } from '../../bench/board/callgrind.ts';
import { bundledForInterpreter } from '../../bench/board/es5.ts';
import { memoryOf } from '../../bench/board/memory.ts';
import { flat, floor } from '../../bench/board/references.ts';
import { readsPerFrame } from '../../bench/board/share.ts';
import { decodeFrame, isFrameAt } from '../../protocol/decode.ts';
import { createFrame } from '../../protocol/frame.ts';
import { interpreter, noInterpreter, runOnInterpreter } from '../interpreter.ts';

const FRAMES = process.env.TAUTLINE_VERIFY === '1' ? 400 : 40;

const classes = async (): Promise<FrameProgram> => ({
  text: await bundledForInterpreter('bench/board/programs/class-style.ts', 'hand'),
  call: 'hand.frame()',
});

/**
 * Frames that a program sends. Readings are exact fractions between 0.125 and 0.37: a sum moves by less than the clip
 * of 3 and a word stays in its range, where the program by hand has neither.
 */
function sent({ text, call }: FrameProgram): Uint8Array[] {
  const program = `
var _reads=0,_frames=0,_port={write:function(data){
  var bytes=new Uint8Array(data.buffer||data),out="";
  for(var i=0;i<20;i++)out+=(bytes[i]+256).toString(16).substr(1);
  print(out)}};
function _read(){_reads++;return _reads<=40?0.25:((_reads*_reads*7+(_reads>>3)*5)%32+16)/128}
function _time(){return _frames/128}
${text
  .replace(/\banalogRead\b/g, '_read')
  .replace(/\bSerial1\b/g, '_port')
  .replace(/\bgetTime\b/g, '_time')}
for(;_frames<${FRAMES};_frames++)${call};`;
  return runOnInterpreter(program).lines.map((line) => new Uint8Array(Buffer.from(line, 'hex')));
}

describe.skipIf(noInterpreter)('programs to compare with', () => {
  it('send the same frames, by hand and with classes', async () => {
    const byHand = sent(flat);
    expect(byHand.length).toBe(FRAMES);
    expect(sent(await classes())).toEqual(byHand);
  });

  it('send frames of the protocol, with the words of the chain', async () => {
    const frame = createFrame();
    for (const [i, bytes] of sent(await classes()).entries()) {
      expect(isFrameAt(bytes, 0), `frame ${i}`).toBe(true);
      decodeFrame(bytes, 0, frame);
      // 1/128 s is 31.25 steps of the frame's clock
      expect(frame).toMatchObject({ kind: 1, rightHand: true, status: 0, sequence: (i + 1) & 255 });
      expect(frame.timeSteps).toBe(Math.floor(i * 31.25));
      // eight readings of 0.25: a step of 2 leaves 2 - 2 / (1.0625 + 9 · 2²) = 1.946037, times 9000 less 1000
      if (i === 0) expect([...frame.values]).toEqual([16514, 16514, 16514, 16514, 16514]);
    }
  });

  it('read 40 times a frame', async () => {
    expect(readsPerFrame(interpreter, floor)).toBe(40);
    expect(readsPerFrame(interpreter, flat)).toBe(40);
    expect(readsPerFrame(interpreter, await classes())).toBe(40);
  });
});

describe.skipIf(noInterpreter)('variables of a program', () => {
  it('do not hold the text of a stored function, which is counted apart', () => {
    const body = (length: number) => ({ text: `function F(){${'a=1;'.repeat(length / 4)}}`, call: 'F()' });
    const short = memoryOf(interpreter, body(400));
    const long = memoryOf(interpreter, body(1480));
    expect(long.variables).toBe(short.variables);
    // this build's variables take 27 bytes: 1080 / 27
    expect(long.textVariables - short.textVariables).toBe(40);
  });
});

const noValgrind = noInterpreter || spawnSync('valgrind', ['--version']).status !== 0;
if (!noInterpreter && noValgrind) console.warn('skipped: counting instructions needs valgrind');

describe.skipIf(noValgrind)('counting instructions', () => {
  it('gives the same figure twice, and more for a frame that does more', () => {
    const text = 'function F(){Serial1.write(1)}';
    const once = instructionsPerFrame(interpreter, { text, call: 'F()' }, 'rest');
    const again = instructionsPerFrame(interpreter, { text, call: 'F()' }, 'rest');
    const twice = instructionsPerFrame(interpreter, { text, call: 'F(),F()' }, 'rest');
    expect(Math.abs(again / once - 1)).toBeLessThan(0.01);
    expect(twice / once).toBeGreaterThan(1.3);
    expect(twice / once).toBeLessThan(2.1);
  });

  it('fails with what the interpreter said about a program that fails', () => {
    const program = { text: 'function F(){missing()}', call: 'F()' };
    expect(() => instructionsPerFrame(interpreter, program, 'rest')).toThrow(/"missing" is not defined/);
  });
});

describe.skipIf(noInterpreter)('the interpreter', () => {
  it('is named by version and by the sum of its file', () => {
    const { interpreter: version, sha256 } = about(interpreter);
    expect(version).toMatch(/^\d+v\d+/);
    const [sum] = spawnSync('sha256sum', [interpreter], { encoding: 'utf8' }).stdout.split(' ');
    expect(sha256).toBe(sum);
  });
});
