import type { PartKind } from './part-drafts.ts';

/** How each part lies on the bed as its file has it, and what to look after. None needs support. */
export const HINTS: Readonly<Record<PartKind, string>> = {
  spool:
    'as it lies; 3 walls, 20 % infill; the groove must be smooth: slow outer wall; a drop of glue on the knot',
  bracket: 'wall on the bed, cup open at the top; 3 walls, 20 % infill',
  lid: 'flat; two screws of 2 x 8 mm',
  'pot-cap': 'open side on the bed, its roof is a bridge of 10 mm; two screws of 2 x 4 mm, no longer',
  ring: 'as it lies, solid; round off every edge, line it with soft cloth',
  cap: 'closed end on the bed, solid; round off every edge, line it with soft cloth',
  plate: 'skin side on the bed; clear the rails with a file; glue felt or foam under it',
  key: 'broad side on the bed; glued into the open end of a rail when all units are in',
  channel: 'floor on the bed, the lips lean by 45 degrees; pushed on the studs',
};

/** Said wherever the parts are listed. */
export const CAUTIONS: readonly string[] = [
  'Deburr every edge; nothing that touches the skin may be sharp or stiff at its edge.',
  'Rings and caps stay open on the palm side. Never tie the string in a loop round a finger, and never so tight that it presses: it must come off with a light pull.',
  'Take the set off when a finger tingles, swells or turns pale.',
];
