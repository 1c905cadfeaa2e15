/** Ordinary TypeScript as the interpreter takes it: bundled, and its classes written out as functions. */
import { transformSync } from '@swc/core';
import { rollup } from 'rollup';

/**
 * @param entry path of a module with nothing but a default export
 * @param name of the global variable that holds it
 */
export async function bundledForInterpreter(entry: string, name: string): Promise<string> {
  const bundle = await rollup({
    input: entry,
    plugins: [
      {
        name: 'es5',
        transform: (code) => {
          const jsc = { parser: { syntax: 'typescript' }, target: 'es5', loose: true } as const;
          return transformSync(code, { jsc, isModule: true }).code;
        },
      },
    ],
    // a side effect of the module itself, which is what is wanted
    onwarn() {},
  });
  const { output } = await bundle.generate({
    format: 'iife',
    name,
    strict: false,
    generatedCode: 'es5',
    exports: 'default',
  });
  await bundle.close();
  return output[0].code;
}
