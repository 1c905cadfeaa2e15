/** How many of the interpreter's variables a program takes, started as a board starts it. */
import { CHOICE_FILE, PROGRAM_FILE, START_CODE } from '../../workbench/serial/load/board-files.ts';
import { type FrameProgram, withStandIn } from './callgrind.ts';
import { toldBy } from './plain-run.ts';

export interface Memory {
  /** Variables with the functions' text in flash, as on a board; those of an empty program are taken off. */
  variables: number;
  /** Variables that the functions' text takes on top where it lies in memory. */
  textVariables: number;
}

const TELL = 'print("USED "+process.memory().usage)';
// A script that still runs lies in memory itself. (Behind the start from flash a timer makes the figure vary by 2.)
const TELL_LATER = `setTimeout(function(){${TELL}},50)`;

/**
 * The program is stored and started by the loader that `tautline load` leaves on a board. The Linux build emulates the
 * flash in a file, and keeps the body of a function that it meets in a stored text there (read in espruino/Espruino
 * c5ff787, src/jsparse.c, and seen: a function of 800 characters takes 4 variables stored and 34 in memory).
 *
 * Its variables hold 27 bytes, a board's 12 to 14: names of more than four characters, fractions and typed arrays take
 * more variables there.
 */
export function memoryOf(interpreter: string, program: FrameProgram): Memory {
  const used = (text: string) => Number(toldBy(interpreter, text, 'USED'));
  const text = withStandIn(program.text, 'Math.sqrt');
  const variables = used(stored(text)) - used(stored(''));
  const inMemory = used(`${text}\n${TELL_LATER}\n`) - used(`${TELL_LATER}\n`);
  return { variables, textVariables: inMemory - variables };
}

/** A program that stores another one and starts it. */
function stored(text: string): string {
  const write = (file: string, content: string) =>
    `require("Storage").write("${file}",${JSON.stringify(content)});`;
  return `${write(`${PROGRAM_FILE}a`, `${text}\n${TELL}\n`)}
${write(CHOICE_FILE, 'a')}
${write('.bootcde', START_CODE)}
load();
`;
}
