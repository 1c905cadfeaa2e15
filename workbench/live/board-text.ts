/** What a board says between frames, as lines. Nothing of it is trusted: it is counted, cut and shown as text. */

/** Longest line kept; the rest of a longer one is dropped. */
const MOST_CHARACTERS = 200;

/** What a line means. */
export type TextMeaning = 'start' | 'brown-out' | 'other';

/** A chip that resets for lack of voltage says so (ESP-IDF prints "Brownout detector was triggered"; its ROM names the reason of a reset). */
const BROWN_OUT = /brown-?\s?out/i;
/** First words of the ROM at a reset: "rst:0x1 (POWERON_RESET),boot:0x13 (SPI_FAST_FLASH_BOOT)", "ets Jun 8 2016". */
const START = /\brst:0x[0-9a-f]+|\bets [A-Z][a-z]{2} +\d|\bboot:0x[0-9a-f]+/;

export interface BoardText {
  /** @param byte that belongs to no frame */
  push(byte: number): void;
  /** Ends a line that was not ended, if there is one. */
  flush(): void;
}

export function createBoardText(onLine: (line: string, meaning: TextMeaning) => void): BoardText {
  let line = '';
  function flush(): void {
    const text = line.trim();
    line = '';
    if (text === '') return;
    onLine(text, BROWN_OUT.test(text) ? 'brown-out' : START.test(text) ? 'start' : 'other');
  }
  return {
    push(byte) {
      if (byte === 0x0a || byte === 0x0d) flush();
      else if (byte >= 0x20 && byte <= 0x7e && line.length < MOST_CHARACTERS)
        line += String.fromCharCode(byte);
    },
    flush,
  };
}
