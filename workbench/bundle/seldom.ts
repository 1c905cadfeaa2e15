/**
 * Code that seldom runs (commands, start-up): the chunk's functions inside one function of the program, so that the
 * board holds nothing of them between two runs. Made small by terser.
 */
import { minify } from 'terser';
import type { Source } from '../../specialise/source.ts';

/** Properties of the interpreter's objects, besides those that terser knows. */
const NATIVE_PROPERTIES = [
  't',
  'CRC32',
  'read',
  'write',
  'readArrayBuffer',
  'getFree',
  'subarray',
  'substr',
  'slice',
  'toString',
  'length',
];

/**
 * @param head up to the opening brace, e.g. `function $q(e)`
 * @param body statements that may use the chunk's functions
 * @param taken names of the program's own scope
 */
export async function seldom(
  source: Source,
  head: string,
  body: string,
  taken: readonly string[],
): Promise<string> {
  const chunk = source.text.replace(/^export \{[\s\S]*?\};?$/m, '').replace(/\/\/# sourceMappingURL.*$/m, '');
  const { code } = await minify(`${head}{${chunk}\n${body}}`, {
    ecma: 5,
    toplevel: false,
    mangle: {
      reserved: ['E', ...taken],
      // names of our own objects, which live in this function alone
      properties: { reserved: NATIVE_PROPERTIES },
    },
    compress: {
      ecma: 5,
      passes: 3,
      // The interpreter reads these forms more slowly than the plain ones.
      sequences: false,
      // Would write x - (x = y), which the interpreter works out from the right.
      collapse_vars: false,
      conditionals: false,
      if_return: false,
      negate_iife: false,
      // It does not hoist.
      hoist_funs: true,
      hoist_vars: true,
      inline: 1,
      unsafe: false,
      arrows: false,
    },
    format: { ascii_only: true, wrap_iife: true, semicolons: true },
  });
  return code ?? '';
}
