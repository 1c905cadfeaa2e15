// Bundles the command line into dist/.
import { rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
process.chdir(root);
const { rollup } = await import('rollup');
const { default: config } = await import('../rollup.config.mjs');
rmSync('dist', { recursive: true, force: true });
const bundle = await rollup(config);
await bundle.write(config.output);
await bundle.close();
