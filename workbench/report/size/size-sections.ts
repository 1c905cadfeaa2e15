import type { SizeAnswer } from '../../size/size-rig-file.ts';
import { alsoWrong, headline } from '../../size/size-words.ts';
import { answerSection } from './answer-section.ts';
import { changesSection } from './changes-section.ts';
import { drawingSection } from './drawing-section.ts';
import { partsSection } from './parts-section.ts';
import { pinsSection } from './pins-section.ts';
import { powerSection } from './power-section.ts';
import { setSection } from './set-section.ts';
import { stringsSection } from './strings-section.ts';
import { wiringSection } from './wiring-section.ts';

/** The parts of the answer of `size`, as HTML. */
export function sizeSections(answer: SizeAnswer): string[] {
  const { rig, size } = answer;
  return [
    answerSection(headline(answer), answer.ok, size.breaksFirst, alsoWrong(answer), answer.warnings),
    changesSection(answer.proposal, size.parts.currency),
    drawingSection(rig, size),
    stringsSection(size.strings),
    wiringSection(size.wiring),
    pinsSection(rig, size.pins),
    powerSection(size.power),
    setSection(size.set),
    partsSection(size.parts),
  ];
}
