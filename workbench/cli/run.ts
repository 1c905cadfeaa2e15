import { Command, CommanderError } from 'commander';
import { formatProblems, TautlineError } from '../../sim/errors.ts';
import { bundleCommand } from './bundle-command.ts';
import { chooseCommand } from './choose-command.ts';
import { diagnoseCommand } from './diagnose-command.ts';
import { EXIT } from './exit-code.ts';
import { explainCommand } from './explain-command.ts';
import { flashCommand } from './flash-command.ts';
import { loadCommand } from './load-command.ts';
import { newCommand } from './new-command.ts';
import { portsCommand } from './ports-command.ts';
import { recordCommand } from './record-command.ts';
import { replayCommand } from './replay-command.ts';
import { sizeCommand } from './size-command.ts';
import { sweepCommand } from './sweep-command.ts';
import { tellFault, wantsStack } from './tell-fault.ts';
import { VERSION } from './version.ts';
import { workbenchCommand } from './workbench-command.ts';

/** Builds the command line. */
export function createProgram(): Command {
  const program = new Command('tautline')
    .description('A bench for makers of string-driven hand controllers.')
    .version(VERSION)
    .showHelpAfterError('Run "tautline --help" to see what there is.');
  const commands = [
    newCommand(),
    sizeCommand(),
    chooseCommand(),
    sweepCommand(),
    explainCommand(),
    bundleCommand(),
    portsCommand(),
    flashCommand(),
    loadCommand(),
    recordCommand(),
    replayCommand(),
    diagnoseCommand(),
    workbenchCommand(),
  ];
  for (const command of commands) {
    command.showHelpAfterError(`Run "tautline ${command.name()} --help" to see what there is.`);
    program.addCommand(command.exitOverride());
  }
  return program.exitOverride();
}

/**
 * Runs a command line and sets the process's exit code; it throws nothing.
 * @param args arguments after the program's name
 */
export async function run(args: string[]): Promise<void> {
  try {
    await createProgram().parseAsync(args, { from: 'user' });
  } catch (error) {
    if (error instanceof CommanderError) {
      // Commander has told what is wrong already; help and version are no errors.
      process.exitCode = error.exitCode === 0 ? EXIT.done : EXIT.input;
    } else if (error instanceof TautlineError) {
      process.stderr.write(`${formatProblems(error)}\n`);
      process.exitCode = EXIT.input;
    } else {
      process.stderr.write(tellFault(error, wantsStack()));
      process.exitCode = EXIT.fault;
    }
  }
}
