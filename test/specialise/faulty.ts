/** The specialiser with one change in its source, to see whether the checks notice. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { posix } from 'node:path';
import { transformSync } from '@swc/core';
import type { Tools } from './sample.ts';

export interface Fault {
  name: string;
  /** In specialise/. */
  file: string;
  /** Text that stands there exactly once. */
  from: string;
  to: string;
  /** The first of the unit cases that notices; `literals` where those do not, but the check of literals does. */
  by: string;
}

export type FaultyTools = Tools & { exactLiteral: (value: number) => string };
type Module = (exports: object, require: (name: string) => object) => void;

const compiled = new Map<string, Module>();
const outside = createRequire(import.meta.url);

function compile(code: string): Module {
  let result = compiled.get(code);
  if (!result) {
    const jsc = { parser: { syntax: 'typescript' }, target: 'es2022' } as const;
    const text = transformSync(code, { jsc, module: { type: 'commonjs' } }).code;
    result = new Function('exports', 'require', text) as Module;
    compiled.set(code, result);
  }
  return result;
}

/** @throws Error when the text to be changed is not there once */
export function faultyTools(fault: Fault): FaultyTools {
  const loaded = new Map<string, object>();
  const load = (file: string): object => {
    const before = loaded.get(file);
    if (before) return before;
    let code = readFileSync(`specialise/${file}`, 'utf8');
    if (file === fault.file) {
      if (code.split(fault.from).length !== 2) {
        throw new Error(`${fault.name}: not once in specialise/${file}: ${fault.from}`);
      }
      code = code.replace(fault.from, () => fault.to);
    }
    const exports = {};
    loaded.set(file, exports);
    compile(code)(exports, (name) =>
      name.startsWith('.') ? load(posix.join(posix.dirname(file), name)) : outside(name),
    );
    return exports;
  };
  const tools = Object.assign({}, ...['source.ts', 'specialise.ts', 'tree.ts', 'literals.ts'].map(load));
  if (!loaded.has(fault.file)) throw new Error(`${fault.name}: specialise/${fault.file} is not used`);
  return tools as FaultyTools;
}
