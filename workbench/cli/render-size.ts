import { wrapWords } from '../report/wrap.ts';
import type { SizeAnswer } from '../size/size-rig-file.ts';
import { answerLines } from './size/answer-lines.ts';
import { partsLines } from './size/parts-lines.ts';
import { pinsLines } from './size/pins-lines.ts';
import { powerLines } from './size/power-lines.ts';
import { setLines } from './size/set-lines.ts';
import { stringsLines } from './size/strings-lines.ts';
import { wiringLines } from './size/wiring-lines.ts';

/** The answer as lines for the terminal. @param isFull with every table behind it */
export function renderSize(answer: SizeAnswer, columns: number, isFull: boolean): string {
  const { size } = answer;
  const lines = answerLines(answer, columns, isFull);
  if (isFull) {
    for (const part of [
      stringsLines(size.strings, columns),
      wiringLines(size.wiring, columns),
      pinsLines(size.pins, columns),
      powerLines(size.power, columns),
      setLines(size.set, columns),
      partsLines(size.parts, columns),
    ]) {
      lines.push('', ...part);
    }
  } else {
    lines.push(
      '',
      ...wrapWords(
        'All figures: --full here, --report FILE.html to look at. To build: --sheet FILE.html for one page to print, --stl DIR for the printed parts.',
        columns,
      ),
    );
  }
  return `${lines.join('\n')}\n`;
}
