// Runs the tests with their long versions: more samples, more draws. Arguments go to vitest, for instance the name
// of a test file.
import './setup.mjs';
import { runPackage } from './package-bin.mjs';

const args = ['run', '--testTimeout=1200000', '--hookTimeout=1200000', ...process.argv.slice(2)];
process.exitCode = runPackage('vitest', 'vitest', args, { TAUTLINE_VERIFY: '1' });
