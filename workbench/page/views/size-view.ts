import { defaultPrices } from '../../parts/default-prices.ts';
import { sizeSections } from '../../report/size/size-sections.ts';
import type { YamlSource } from '../../rig/yaml-source.ts';
import { sizeRigFile } from '../../size/size-rig-file.ts';
import { fill, fromReport, h } from '../dom.ts';
import { VERSION } from '../version.ts';
import type { View, ViewContext } from './view.ts';

/** How far hands reach on either side of the rig's own. Assumed. */
const SPREAD = 0.1;

/** What `tautline size` says of the rig, drawings included. */
export function sizeView({ engine }: ViewContext, source: YamlSource): View {
  const element = h('div', { class: 'column report' });
  let isMade = false;
  return {
    id: 'size',
    title: 'Size',
    element,
    shown() {
      if (isMade) return;
      isMade = true;
      const { scale } = engine.rig.hand;
      const hands = [1 - SPREAD, 1 + SPREAD].map((share) => Number((scale * share).toFixed(2))) as [
        number,
        number,
      ];
      const answer = sizeRigFile(
        { rig: engine.rig, source },
        { version: VERSION, file: source.file, warnings: [] },
        hands,
        defaultPrices(),
      );
      fill(element, fromReport(sizeSections(answer).join('\n')));
    },
  };
}
