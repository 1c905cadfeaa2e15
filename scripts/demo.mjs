// The whole workbench with the simulator as the board: no hardware needed.
import { main } from '../dist/cli.js';

await main(['workbench', 'examples/puppet-right.yaml', '--simulate', ...process.argv.slice(2)]);
