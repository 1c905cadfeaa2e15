// The main job on the built-in example: chooses settings for the puppet theatre's right hand and writes a report.
import { main } from '../dist/cli.js';

const report = 'tautline-report.html';
const extra = process.argv.slice(2);
await main(['choose', 'examples/puppet-right.yaml', '--report', report, ...extra]);
process.stderr.write('The live workbench, with the simulator as the board: npm run demo\n');
