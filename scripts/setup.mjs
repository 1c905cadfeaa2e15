// Does on a fresh machine what `npm start` and `npm test` need: install the packages, build the program.
// Run again it sees that nothing has changed and returns at once.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
process.chdir(root);

if (Number(process.versions.node.split('.')[0]) < 20) {
  console.error(`Tautline needs Node 20 or newer; this is ${process.version}. Get one from nodejs.org.`);
  process.exit(2);
}

/** Hash of what the installation depends on. */
const lock = createHash('sha256').update(readFileSync('package-lock.json')).digest('hex');
const stamp = join('node_modules', '.tautline-lock');
if (!existsSync(stamp) || readFileSync(stamp, 'utf8') !== lock) {
  console.error('Installing packages (once, about 60 MB) ...');
  // Install scripts are not needed: nothing here compiles, and the build follows below.
  run(['ci', '--ignore-scripts', '--loglevel=error', '--no-audit', '--no-fund']);
  mkdirSync('node_modules', { recursive: true });
  writeFileSync(stamp, lock);
}

await import('./build-if-stale.mjs');

function run(args) {
  // npm tells its own path, which works without a shell on every system.
  const npm = process.env.npm_execpath;
  const done = npm
    ? spawnSync(process.execPath, [npm, ...args], { stdio: ['ignore', 'inherit', 'inherit'] })
    : spawnSync('npm', args, {
        stdio: ['ignore', 'inherit', 'inherit'],
        shell: process.platform === 'win32',
      });
  if (done.status !== 0) {
    console.error(
      'The packages could not be installed (see above). Check the network, then run the command again.',
    );
    process.exit(done.status ?? 1);
  }
}
