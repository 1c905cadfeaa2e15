/** npm run measure:board [-- --json] [--only name,name]: what the board's program costs on the real interpreter. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { boardFacts } from '../../firmware/boards/boards.ts';
import { CYCLES_PER_INSTRUCTION } from '../../firmware/boards/cost-figures.ts';
import { type FrameProgram, instructionsPerFrame } from './callgrind.ts';
import { memoryOf } from './memory.ts';
import { classes, flat, floor } from './references.ts';
import { variants } from './variants.ts';

interface Row {
  name: string;
  rest: number;
  moving: number;
}

const interpreter = process.env.TAUTLINE_INTERPRETER ?? '';
const isJson = process.argv.includes('--json');
const onlyAt = process.argv.indexOf('--only');
const only = onlyAt > 0 ? process.argv[onlyAt + 1]!.split(';') : undefined;

function missing(words: string): never {
  process.stderr.write(`${words}\n`);
  process.exit(2);
}

if (interpreter === '' || !existsSync(interpreter)) {
  missing(
    `TAUTLINE_INTERPRETER is ${interpreter === '' ? 'not set' : `${interpreter}, which is not there`}. Expected the path of the interpreter's Linux build: clone espruino/Espruino, "make BOARD=LINUX RELEASE=1".`,
  );
}
if (spawnSync('valgrind', ['--version']).status !== 0) {
  missing('valgrind is not there. Expected it on the path: "apt install valgrind".');
}

const all: { name: string; program: () => Promise<FrameProgram> }[] = [
  { name: 'reference: read and send', program: async () => floor },
  { name: 'reference: flat, by hand', program: async () => flat },
  { name: 'reference: classes', program: async () => classes },
  ...variants(),
];
const rows: Row[] = [];
for (const { name, program } of all) {
  if (only && !only.includes(name)) continue;
  process.stderr.write(`${name} ...\n`);
  const made = await program();
  const rest = instructionsPerFrame(interpreter, made, 'rest');
  const moving = instructionsPerFrame(interpreter, made, 'moving');
  rows.push({ name, rest, moving });
}
const memory = only ? undefined : await memoryOf(interpreter);

const millions = (n: number) => (n / 1e6).toFixed(3);
const row = (name: string) => rows.find((one) => one.name === name);
if (isJson) {
  const main = row('default') ?? rows[0]!;
  process.stdout.write(
    `${JSON.stringify({
      rest: main.rest / 1e6,
      moving: main.moving / 1e6,
      unit: 'million instructions a frame, five fingers of eight readings unless named otherwise',
      variables: memory?.variables,
      textVariables: memory?.textVariables,
      variants: Object.fromEntries(
        rows.map((one) => [one.name, { rest: one.rest / 1e6, moving: one.moving / 1e6 }]),
      ),
    })}\n`,
  );
} else {
  const ms = (n: number) => ((n * CYCLES_PER_INSTRUCTION * 1000) / boardFacts('esp32').clockHz).toFixed(1);
  const share = (n: number, board: 'esp32' | 'esp32-c3') => {
    const facts = boardFacts(board);
    const s = (n * CYCLES_PER_INSTRUCTION) / facts.clockHz + (40 * facts.readUs) / 1e6;
    return `${Math.round(s * 100 * 100)} %`;
  };
  const width = Math.max(...rows.map((one) => one.name.length));
  process.stdout.write(
    `${'M instructions a frame'.padEnd(width)}   rest  moving  ESP32 ms  of 10 ms with ADC: ESP32, ESP32-C3\n`,
  );
  for (const one of rows) {
    process.stdout.write(
      `${one.name.padEnd(width)}  ${millions(one.rest)}  ${millions(one.moving)}  ${ms(one.moving).padStart(8)}  ${share(one.moving, 'esp32').padStart(26)}  ${share(one.moving, 'esp32-c3').padStart(8)}\n`,
    );
  }
  if (memory) {
    process.stdout.write(
      `Variables of the plain program: ${memory.variables}, and ${memory.textVariables} for its text when that lies in memory.\n`,
    );
  }
}
