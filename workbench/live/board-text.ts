/** What a board says between frames, as lines. Nothing of it is trusted: it is counted, cut and shown as text. */
import { STRAY_CLASS, STRAY_GARBAGE } from '../../protocol/stray-bytes.ts';

/** Longest line kept; the rest of a longer one is dropped. */
const MOST_CHARACTERS = 200;
/** A line with more senseless bytes than this share of its text is none: a ROM log at another rate. Assumed. */
const MOST_GARBAGE = 0.25;

/** Senseless bytes of late, as a share: above this even a clean line is chance. Assumed. */
const MOST_NOISE = 0.1;
/** What one byte counts in that share. */
const NEWS = 0.03;

/** What a line means. */
export interface TextMeaning {
  /** The chip's ROM tells why it starts: once for each start. */
  isStart: boolean;
  /** The supply broke down. */
  isBrownOut: boolean;
}

/**
 * Either the system's "Brownout detector was triggered" or the ROM's reason of a reset, which is called
 * RTCWDT_BROWN_OUT_RESET or BROWNOUT_RST (espressif/esp-idf, esp_rom headers of the chips).
 */
const BROWN_OUT = /brown[-_ ]?out/i;
/** "rst:0x1 (POWERON_RESET),boot:0x13 (SPI_FAST_FLASH_BOOT)": one such line at every reset, on all three chips. */
const START = /\brst:0x[0-9a-f]+/i;
/** Colours of a console. */
const COLOURS = /\[[0-9;]*m/g;

export interface BoardText {
  /** @param byte that belongs to no frame */
  push(byte: number): void;
  /** Ends a line that was not ended, if there is one. */
  flush(): void;
}

export function createBoardText(onLine: (line: string, meaning: TextMeaning) => void): BoardText {
  let line = '';
  let garbage = 0;
  let noise = 0;
  function flush(): void {
    const text = line.replace(COLOURS, '').trim();
    const isText = garbage <= MOST_GARBAGE * text.length && noise <= MOST_NOISE;
    line = '';
    garbage = 0;
    const meaning = { isStart: START.test(text), isBrownOut: BROWN_OUT.test(text) };
    if (text !== '' && (isText || meaning.isStart || meaning.isBrownOut)) onLine(text, meaning);
  }
  return {
    push(byte) {
      const isGarbage = STRAY_CLASS[byte] === STRAY_GARBAGE;
      noise += NEWS * ((isGarbage ? 1 : 0) - noise);
      if (byte === 0x0a || byte === 0x0d) flush();
      else if (byte >= 0x20 && byte <= 0x7e) {
        if (line.length < MOST_CHARACTERS) line += String.fromCharCode(byte);
      } else if (isGarbage) garbage++;
    },
    flush,
  };
}
