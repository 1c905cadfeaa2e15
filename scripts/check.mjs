// Types, lint and format; writes nothing. Runs all checks and tells at the end which failed.
import { runPackage } from './package-bin.mjs';

const checks = [
  ['types', 'typescript', 'tsc', ['-p', 'tsconfig.json', '--noEmit']],
  ['types of the board rooms', 'typescript', 'tsc', ['-p', 'tsconfig.board.json', '--noEmit']],
  ['types of the page', 'typescript', 'tsc', ['-p', 'tsconfig.page.json', '--noEmit']],
  ['lint and format', '@biomejs/biome', 'biome', ['check', '.']],
];
const failed = checks.filter(([, name, program, args]) => runPackage(name, program, args) !== 0);
if (failed.length > 0) {
  console.error(
    `Failed: ${failed.map(([title]) => title).join(', ')}. "npm run fix" mends most of lint and format.`,
  );
  process.exitCode = 1;
} else {
  console.error(`Passed: ${checks.map(([title]) => title).join(', ')}.`);
}
