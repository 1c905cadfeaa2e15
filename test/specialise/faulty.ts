/** The specialiser with one change in its source, to see whether the checks notice. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { transformSync } from '@swc/core';
import { rollup } from 'rollup';
import type { Tools } from './sample.ts';

export interface Fault {
  name: string;
  file: string;
  /** Text that stands there exactly once. */
  from: string;
  to: string;
}

const ROOM = join(process.cwd(), 'specialise');
const ENTRY = '\0entry.ts';
const ENTRY_TEXT = ['source', 'specialise', 'tree', 'literals']
  .map((f) => `export * from './${f}.ts';`)
  .join('\n');
const transformed = new Map<string, string>();

function javaScript(code: string): string {
  let result = transformed.get(code);
  if (result === undefined) {
    result = transformSync(code, { jsc: { parser: { syntax: 'typescript' }, target: 'es2022' } }).code;
    transformed.set(code, result);
  }
  return result;
}

/** @throws Error when the text to be changed is not there once */
export async function faultyTools(
  fault: Fault,
): Promise<Tools & { exactLiteral: (value: number) => string }> {
  let isChanged = false;
  const bundle = await rollup({
    input: ENTRY,
    external: ['acorn'],
    plugins: [
      {
        name: 'fault',
        resolveId(id, importer) {
          if (id === ENTRY) return id;
          if (!id.startsWith('.')) return null;
          return importer === ENTRY ? join(ROOM, id) : join(importer!, '..', id);
        },
        load(id) {
          if (id === ENTRY) return ENTRY_TEXT;
          const code = readFileSync(id, 'utf8');
          if (id !== join(ROOM, fault.file)) return javaScript(code);
          if (code.split(fault.from).length !== 2) {
            throw new Error(`${fault.name}: not once in specialise/${fault.file}: ${fault.from}`);
          }
          isChanged = true;
          return javaScript(code.replace(fault.from, () => fault.to));
        },
      },
    ],
    onwarn() {},
  });
  const { output } = await bundle.generate({ format: 'cjs' });
  await bundle.close();
  if (!isChanged) throw new Error(`${fault.name}: specialise/${fault.file} is not part of the specialiser`);
  const exports: unknown = {};
  new Function('exports', 'require', output[0].code)(exports, createRequire(import.meta.url));
  return exports as Tools & { exactLiteral: (value: number) => string };
}
