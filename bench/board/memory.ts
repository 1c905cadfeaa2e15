/** How many of the interpreter's variables the plain program takes. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { variants } from './variants.ts';

export interface Memory {
  /** Variables without the functions' text. On a board the text stays in flash. */
  variables: number;
  /** Variables that the text takes where it lies in memory, as here. */
  textVariables: number;
}

export async function memoryOf(interpreter: string): Promise<Memory> {
  const program = await variants()
    .find((one) => one.name === 'program')!
    .program();
  const text = program.text.replace(/\banalogRead\b/g, 'Math.sqrt').replace(/\bSerial1\b/g, 'USB');
  // Functions' bodies are measured apart: what the same functions take with nothing in them is not text.
  const measure = `
var _m=process.memory().usage;
${text}
var _a=process.memory().usage-_m,_t=0;
function _b(f){var b=process.memory().usage,g=eval("("+f.toString()+")"),u=process.memory().usage;return u-b}
var _e=_b(function(){});
${[...text.matchAll(/^function (\$?\w+)\(/gm)].map((m) => `_t+=_b(${m[1]})-_e;`).join('\n')}
print("USED "+_a+" "+_t);
`;
  const folder = mkdtempSync(join(tmpdir(), 'tautline-memory-'));
  try {
    writeFileSync(join(folder, 'program.js'), measure);
    for (let left = 3; left > 0; left--) {
      const { stdout } = spawnSync(interpreter, ['program.js'], {
        cwd: folder,
        encoding: 'latin1',
        input: '',
        timeout: 20_000,
        killSignal: 'SIGKILL',
      });
      const used = /USED (\d+) (\d+)/.exec(stdout);
      if (used) return { variables: Number(used[1]) - Number(used[2]), textVariables: Number(used[2]) };
    }
    throw new Error('the interpreter did not tell its memory');
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
