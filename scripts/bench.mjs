// Bundles the benches as the program itself is bundled, and runs them: npm run bench [-- name ...]
import { spawnSync } from 'node:child_process';
import { rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
process.chdir(root);
const { rollup } = await import('rollup');
const { default: config } = await import('../rollup.config.mjs');
// Inside node_modules, where packages are found and nothing else looks.
const dir = 'node_modules/.tautline-bench';
rmSync(dir, { recursive: true, force: true });
const bundle = await rollup({
  ...config,
  input: {
    main: 'bench/main.ts',
    'study-child': 'bench/study-child.ts',
    'draw-worker': config.input['draw-worker'],
  },
});
await bundle.write({ ...config.output, dir });
await bundle.close();
// A process of its own: beside the bundler the baseline runs a fifth slower and the product does not, which would
// flatter the product (164 against about 210 evaluations a second, measured).
const done = spawnSync(process.execPath, [`${dir}/main.js`, ...process.argv.slice(2)], { stdio: 'inherit' });
process.exitCode = done.status ?? 1;
