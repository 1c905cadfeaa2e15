// Builds dist/ if it is missing or older than the sources. Needs the packages to be installed.
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

process.chdir(fileURLToPath(new URL('..', import.meta.url)));
const sources = ['protocol', 'firmware', 'specialise', 'sim', 'workbench'].map(newest);
if (!existsSync('dist/cli.js') || mtime('dist/cli.js') < Math.max(...sources, mtime('rollup.config.mjs'))) {
  console.error('Building ...');
  await import('./build.mjs');
}

function mtime(path) {
  return statSync(path).mtimeMs;
}

/** Time of the newest source below a folder. */
function newest(folder) {
  return Math.max(
    0,
    ...readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && entry.name.endsWith('.ts'))
      .map((entry) => mtime(join(entry.parentPath ?? entry.path, entry.name))),
  );
}
