// Counts what the board's program costs on the real interpreter: npm run measure:board [-- --json]
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

process.chdir(fileURLToPath(new URL('..', import.meta.url)));
await import('./build-if-stale.mjs');
const done = spawnSync(
  process.execPath,
  ['--import', 'tsx', 'bench/board/main.ts', ...process.argv.slice(2)],
  { stdio: 'inherit' },
);
process.exitCode = done.status ?? 1;
