import type { TextMeaning } from './board-text.ts';
import type { SessionEvent } from './session-types.ts';

/** Counts starts of the board and break-downs of its supply, each once, and tells them. */
export interface StartWatch {
  /** A line of the board's. @returns whether the board has started with it */
  line(line: string, meaning: TextMeaning): boolean;
  /** The board's clock has gone back or ahead: it started without a word that could be read. */
  clock(): void;
  starts(): number;
  brownOuts(): number;
}

const SUPPLY =
  'Its supply sags: try another cable or port, a capacitor of 100 µF or more beside the board, servos on a supply of their own.';

export function createStartWatch(
  tell: (kind: SessionEvent['kind'], seen: string, next: string) => void,
): StartWatch {
  let starts = 0;
  let brownOuts = 0;
  /** Told for the start that is coming: the system's warning and the ROM's reason are one break-down. */
  let isBrownOutTold = false;

  function started(how: string): void {
    starts++;
    isBrownOutTold = false;
    tell('board-started', `The board has started anew: ${how}`, '');
  }

  return {
    line(line, meaning) {
      if (meaning.isBrownOut && !isBrownOutTold) {
        isBrownOutTold = true;
        brownOuts++;
        tell('brown-out', `The board reset for lack of voltage: "${line}"`, SUPPLY);
      }
      if (meaning.isStart) started(`"${line}"`);
      return meaning.isStart;
    },
    clock: () => started('its clock has jumped.'),
    starts: () => starts,
    brownOuts: () => brownOuts,
  };
}
