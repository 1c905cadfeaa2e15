/**
 * The files that a load leaves on the board. Programs lie in two files written in turn, so that the running one is
 * never touched; a third names the one to run; `.bootcde`, which the interpreter runs at every start, is written once.
 */

/** One letter: the program to run. */
export const CHOICE_FILE = 'taut.run';
/** Program files are this and the letter. */
export const PROGRAM_FILE = 'taut.';

/**
 * The start program. Code evaluated from a string that lies in flash stays in flash (read in espruino/Espruino
 * c5ff787), so a program costs few of the interpreter's variables.
 */
export const START_CODE = `eval(require("Storage").read("${PROGRAM_FILE}"+require("Storage").read("${CHOICE_FILE}")))`;

/** The letter whose file may be written while the other one runs. @param chosen contents of the choice file */
export function otherLetter(chosen: unknown): 'a' | 'b' {
  return chosen === 'a' ? 'b' : 'a';
}
