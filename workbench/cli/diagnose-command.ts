import { Command } from 'commander';
import { formatProblem } from '../../sim/errors.ts';
import { diagnose } from '../diagnose/diagnose.ts';
import { readRig } from '../rig/read-rig.ts';
import { diagnosisLines } from './diagnose-lines.ts';
import { evidenceOf } from './evidence-of-file.ts';
import { EXIT } from './exit-code.ts';
import { VERSION } from './version.ts';

interface DiagnoseOptions {
  from: string;
  json?: true;
}

export function diagnoseCommand(): Command {
  return new Command('diagnose')
    .summary('name the fault that a recording shows, with evidence and cure')
    .description(
      'Finds rests, slow and quick movements in a recording of "tautline record" or of the workbench, and\n' +
        'names what is wrong with the build: what was seen, what else it could be, what to do. A guided look\n' +
        'in the workbench sees more, since it asks for raw readings too. Exit code 1: a fault was found.',
    )
    .argument('<rig>', 'rig file of the board that was recorded')
    .requiredOption('--from <file.csv>', 'the recording')
    .option('--json', 'print everything as JSON')
    .action(run);
}

async function run(path: string, options: DiagnoseOptions): Promise<void> {
  const { rig, warnings } = readRig(path);
  for (const warning of warnings) process.stderr.write(`warning: ${formatProblem(warning)}\n`);
  const diagnosis = diagnose(await evidenceOf(options.from), rig);
  const isSound = diagnosis.findings.length === 0;
  process.stdout.write(
    options.json
      ? `${JSON.stringify({ command: 'diagnose', version: VERSION, ok: isSound, rig: rig.name, from: options.from, ...diagnosis })}\n`
      : `${diagnosisLines(diagnosis, Math.min(process.stdout.columns || 80, 100)).join('\n')}\n`,
  );
  if (!isSound) process.exitCode = EXIT.no;
}
