import { EXIT } from './exit-code.ts';
import { tellFault, wantsStack } from './tell-fault.ts';

/**
 * Makes the process end in an orderly way when something from outside ends it: the reader of a pipe goes away,
 * the disk behind stdout is full, Ctrl-C; or when an error slips past everything that waits for one.
 * For a process of its own only: it sets handlers that stay.
 */
export function guardProcess(): void {
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    // "tautline ... | head" has read enough: no error, and nothing to say.
    if (error.code === 'EPIPE') process.exit();
    process.stderr.write(
      `Standard output could not be written: ${error.message}. Check that the disk has room.\n(output/not-written)\n`,
    );
    process.exit(EXIT.input);
  });
  // Nobody reads progress and messages: the work is still wanted.
  process.stderr.on('error', () => {});
  process.once('SIGINT', () => {
    process.stderr.write('\nStopped.\n');
    process.exit(EXIT.interrupted);
  });
  process.on('uncaughtException', (error) => {
    process.stderr.write(tellFault(error, wantsStack()));
    process.exit(EXIT.fault);
  });
}
