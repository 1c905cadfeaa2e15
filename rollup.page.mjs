import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import resolve from '@rollup/plugin-node-resolve';
import swc from '@rollup/plugin-swc';

/** The workbench's page and its worker, for browsers: everything in, nothing loaded from elsewhere. */
export default {
  input: { app: 'workbench/page/app.ts', 'choose-worker': 'workbench/page/choose-worker.ts' },
  output: {
    dir: 'dist/page',
    format: 'es',
    entryFileNames: '[name].js',
    chunkFileNames: 'chunk-[name].js',
    sourcemap: false,
  },
  onwarn(warning, warn) {
    // Comments for other bundlers, and rings of imports inside packages, are no concern of ours.
    const isTheirs = /node_modules/.test(warning.message);
    if (!isTheirs || !['CIRCULAR_DEPENDENCY', 'INVALID_ANNOTATION'].includes(warning.code)) warn(warning);
  },
  plugins: [
    resolve({ extensions: ['.ts', '.js', '.mjs'], browser: true }),
    swc({ swc: { jsc: { parser: { syntax: 'typescript' }, target: 'es2022' } } }),
  ],
};

/** Style of the chart library, which the page serves beside its own. */
export const chartStyle = () =>
  readFileSync(createRequire(import.meta.url).resolve('uplot/dist/uPlot.min.css'), 'utf8');
