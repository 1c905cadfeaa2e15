import { Option } from 'commander';

/** Options that commands on a port share. */
export function portOption(): Option {
  return new Option('--port <path>', 'port of the board, see "tautline ports"').makeOptionMandatory();
}

/** The console's rate, and the one at which images are written: slow is what every bridge and cable can do. */
export const USUAL_BAUD = 115_200;
export const LEAST_BAUD = 9600;
export const MOST_BAUD = 2_000_000;
