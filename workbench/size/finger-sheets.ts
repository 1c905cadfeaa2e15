import type { RigSize } from '../../sim/sizing/size-rig.ts';
import type { FingerSheets } from '../report/size/sheet-tables.ts';

/** What the build sheet says of each finger beside the rig file's own values. */
export function fingerSheets({ strings }: Pick<RigSize, 'strings'>): FingerSheets {
  return Object.fromEntries(
    strings.fingers.map(({ name, spool, spring }) => {
      const turns = spring.preload.nowTurns;
      return [name, { cutMm: spool.string.cutMm, ...(turns !== null && { preloadTurns: turns }) }];
    }),
  );
}
