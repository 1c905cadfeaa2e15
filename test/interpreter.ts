import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { transformSync } from '@swc/core';
import { rollup } from 'rollup';

/** Path of the interpreter's Linux build; tests that need it are skipped without. */
export const interpreter = process.env.TAUTLINE_INTERPRETER ?? '';
export const noInterpreter = interpreter === '';
if (noInterpreter) {
  console.warn('skipped: set TAUTLINE_INTERPRETER to the Linux build of the interpreter (espruino/Espruino)');
}

/** A TypeScript program with all that it imports from the repository, as one piece of ES5 for the interpreter. */
export async function boardText(source: string): Promise<string> {
  const entry = '\0entry.ts';
  const root = process.cwd();
  const bundle = await rollup({
    input: entry,
    plugins: [
      {
        name: 'board',
        resolveId: (id, importer) => (id === entry ? id : importer === entry ? join(root, id) : null),
        load: (id) => (id === entry ? source : null),
        transform: (code) => {
          const jsc = { parser: { syntax: 'typescript' }, target: 'es5', loose: true } as const;
          return transformSync(code, { jsc, isModule: true }).code;
        },
      },
    ],
    onwarn() {},
  });
  const { output } = await bundle.generate({ format: 'iife', strict: false, generatedCode: 'es5' });
  await bundle.close();
  return output[0].code;
}

export interface Run {
  /** What the program printed, without the banner and the prompt. */
  lines: string[];
  /** Content of its simulated flash, if it used any. */
  flash?: Uint8Array;
}

/**
 * Runs a program on the interpreter until it has nothing more to do.
 * @param limitMs after this it is ended
 */
export function runOnInterpreter(program: string, flash?: Uint8Array, limitMs = 20_000): Run {
  const folder = mkdtempSync(join(tmpdir(), 'tautline-interpreter-'));
  try {
    writeFileSync(join(folder, 'program.js'), `print("BEGIN");\n${program}\nprint("END");\n`);
    if (flash) writeFileSync(join(folder, 'espruino.flash'), flash);
    const { stdout } = spawnSync(interpreter, ['program.js'], {
      cwd: folder,
      encoding: 'latin1',
      timeout: limitMs,
      killSignal: 'SIGKILL',
    });
    // a line of its own: the letters alone may be part of what the program prints
    const text = /BEGIN\r?\n([\s\S]*?)^END\r?$/m.exec(stdout);
    if (!text) throw new Error(`the interpreter stopped early: ${stdout.slice(-500)}`);
    const run: Run = { lines: text[1]!.split(/\r?\n/).filter((line) => line !== '') };
    try {
      run.flash = new Uint8Array(readFileSync(join(folder, 'espruino.flash')));
    } catch {
      // the program stored nothing
    }
    return run;
  } finally {
    rmSync(folder, { recursive: true });
  }
}
