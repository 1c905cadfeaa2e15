/** npm run measure:board [-- --json] [--variants name,name]: what the board's program costs on the real interpreter. */
import { parseArgs } from 'node:util';
import { about, whatIsMissing } from './about.ts';
import { type FrameProgram, instructionsPerFrame } from './callgrind.ts';
import { bundledForInterpreter } from './es5.ts';
import { memoryOf } from './memory.ts';
import { pickNames } from './pick.ts';
import { flat, floor } from './references.ts';
import { readsPerFrame } from './share.ts';
import { jsonLine, type Row, table } from './table.ts';
import { variants } from './variants.ts';

const interpreter = process.env.TAUTLINE_INTERPRETER ?? '';
const all: { name: string; program: () => Promise<FrameProgram> }[] = [
  { name: 'reference: read and send', program: async () => floor },
  { name: 'reference: flat, by hand', program: async () => flat },
  {
    name: 'reference: classes',
    program: async () => ({
      text: await bundledForInterpreter('bench/board/programs/class-style.ts', 'hand'),
      call: 'hand.frame()',
    }),
  },
  ...variants(),
];

function fail(words: string): never {
  process.stderr.write(`${words}\n`);
  process.exit(2);
}

interface Asked {
  isJson: boolean;
  names: string[];
}

function asked(): Asked {
  const known = all.map((one) => one.name);
  try {
    const options = {
      json: { type: 'boolean' },
      variants: { type: 'string' },
    } as const;
    const { values } = parseArgs({ options });
    const { variants: list } = values;
    return { isJson: values.json === true, names: list === undefined ? known : pickNames(list, known) };
  } catch (error) {
    fail((error as Error).message);
  }
}

const { isJson, names } = asked();
const missing = whatIsMissing(interpreter);
if (missing !== undefined) fail(missing);

const rows: Row[] = [];
for (const { name, program } of all) {
  if (!names.includes(name)) continue;
  process.stderr.write(`${name} ...\n`);
  const made = await program();
  rows.push({
    name,
    rest: instructionsPerFrame(interpreter, made, 'rest'),
    moving: instructionsPerFrame(interpreter, made, 'moving'),
    ...memoryOf(interpreter, made),
    textBytes: made.text.length,
    reads: readsPerFrame(interpreter, made),
  });
}
const measured = about(interpreter);
process.stdout.write(isJson ? `${jsonLine(measured, rows)}\n` : table(measured, rows));
