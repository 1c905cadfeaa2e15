import { readFileSync } from 'node:fs';
import resolve from '@rollup/plugin-node-resolve';
import swc from '@rollup/plugin-swc';

const { dependencies } = JSON.parse(readFileSync(new URL('./package.json', import.meta.url), 'utf8'));

const plugins = [
  resolve({ extensions: ['.ts', '.js', '.mjs'] }),
  swc({ swc: { jsc: { parser: { syntax: 'typescript' }, target: 'es2022' } } }),
];

/** The board's modules as one chunk, which the bundler specialises for a rig. */
export const board = {
  input: { board: 'firmware/main/index.ts' },
  output: { dir: 'dist', format: 'es', entryFileNames: '[name].mjs', sourcemap: true },
  plugins,
};

/** The command line and its worker, for Node 20. Packages stay packages. */
export default {
  input: {
    cli: 'workbench/cli/main.ts',
    'draw-worker': 'sim/study/draw-worker.ts',
    'upload-child': 'workbench/serial/load/upload-child.ts',
  },
  external: (id) =>
    id.startsWith('node:') || Object.keys(dependencies).some((d) => id === d || id.startsWith(`${d}/`)),
  output: {
    dir: 'dist',
    format: 'es',
    entryFileNames: '[name].js',
    chunkFileNames: '[name].js',
    sourcemap: true,
  },
  plugins,
};
