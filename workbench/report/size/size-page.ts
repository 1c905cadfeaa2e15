import type { SizeAnswer } from '../../size/size-rig-file.ts';
import { reportPage } from '../shell.ts';
import { PARTS_STYLE } from './parts-style.ts';
import { sizeSections } from './size-sections.ts';
import { SIZE_STYLE } from './size-style.ts';
import { WIRING_STYLE } from './wiring-style.ts';

/** The whole answer of `size` as one HTML file, see {@link reportPage}. */
export function sizeReport(answer: SizeAnswer): string {
  const { rig, size, version, file } = answer;
  return reportPage(
    {
      version,
      title: `Sizes of ${rig.name}`,
      command: 'size',
      under: `${rig.hand.side} hand, ${rig.fingers.map(({ name }) => name).join(', ')} · hands of ${size.hands.join(' to ')} times the mean · ${rig.board} · ${file}`,
      parts: [
        ['answer', 'Verdict'],
        ['changes', 'Changes'],
        ['drawing', 'To scale'],
        ['spool', 'Strings'],
        ['spring', 'Springs'],
        ['guides', 'Guides'],
        ['wiring', 'Wiring'],
        ['pins', 'Pins'],
        ['power', 'Power'],
        ['set', 'Printed parts'],
        ['parts', 'Parts'],
      ],
      footer: `Worked out by tautline ${version} from the rig file and from datasheet, measured and assumed values; "tautline explain" tells which. Nothing here was measured on your build. Local rules and qualified people come first.`,
      style: `${SIZE_STYLE}${PARTS_STYLE}${WIRING_STYLE}`,
    },
    sizeSections(answer),
  );
}
