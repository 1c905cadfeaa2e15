import { TautlineError } from '../../../sim/errors.ts';

const HOLD_BOOT =
  'Hold BOOT on the board, press and let go of RESET (EN), let go of BOOT, and start again; or hold BOOT from before the start until "writing" appears. Boards without these buttons: connect GPIO 0 (GPIO 9 on a C3) to GND instead.';
const HALF_WRITTEN =
  'The board’s image is incomplete now: it will not start until it is flashed again. Its boot loader in ROM cannot be damaged.';

/** A chip that does not answer. @param heard what it said instead, as text */
export function noAnswerError(port: string, heard: string): TautlineError {
  const mode = /boot:(0x[0-9a-f]+)/i.exec(heard)?.[1];
  if (/waiting for download/i.test(heard)) {
    return new TautlineError('flash/deaf', `The chip on ${port} waits for an image but does not hear.`, {
      detail:
        'The line from the computer to the chip is interrupted (its RX pin): check wiring, or disconnect what else uses that pin.',
    });
  }
  if (mode !== undefined) {
    return new TautlineError(
      'flash/runs',
      `The chip on ${port} started its program (boot mode ${mode}) instead of waiting for an image.`,
      {
        detail: HOLD_BOOT,
      },
    );
  }
  return new TautlineError('flash/no-answer', `No chip answers on ${port}.`, {
    detail: `${HOLD_BOOT} Also check that the cable carries data and that it is this port: tautline ports.`,
  });
}

export function otherChipError(port: string, seen: string, expected: string, board: string): TautlineError {
  return new TautlineError(
    'flash/other-chip',
    `The chip on ${port} is an ${seen}; the image is for ${expected} (${board}). Nothing was written.`,
    {
      detail: 'Take the image for this chip, or connect the other board.',
    },
  );
}

export function smallFlashError(port: string, sizeBytes: number, neededBytes: number): TautlineError {
  const mega = (bytes: number): string => `${(bytes / 1_048_576).toFixed(1)} MB`;
  return new TautlineError(
    'flash/small',
    `The board on ${port} has ${mega(sizeBytes)} of flash; the image needs ${mega(neededBytes)}. Nothing was written.`,
    {
      detail: 'The interpreter’s builds need 4 MB (an S3 build 8 MB): use a board with more.',
    },
  );
}

/**
 * What the flashing library threw, as an error with advice.
 * @param began whether writing had begun
 */
export function libraryError(port: string, error: unknown, during: string, began: boolean): TautlineError {
  if (error instanceof TautlineError) return error;
  const said = error instanceof Error ? error.message : String(error);
  const after = began ? ` ${HALF_WRITTEN}` : ' Nothing was written.';
  if (/MD5 of file does not match/i.test(said)) {
    return new TautlineError(
      'flash/verify',
      `What the board on ${port} read back is not what was sent (MD5 differs).`,
      {
        detail: `Flash again; if it comes back, the flash chip or its supply is bad.${after}`,
        cause: error,
      },
    );
  }
  if (/failed with status|unsupported/i.test(said)) {
    return new TautlineError('flash/refused', `The chip on ${port} refused while ${during}: ${said}.`, {
      detail: `Bytes are damaged on the way, or the flash does not take them. Use a shorter cable and leave --baud away.${after}`,
      cause: error,
    });
  }
  if (/serial data|invalid head of packet|invalid SLIP|invalid response/i.test(said)) {
    return new TautlineError(
      'flash/stalled',
      `The chip on ${port} stopped answering while ${during}: ${said}`,
      {
        detail: `Leave --baud away, try another cable and a port without hub.${after}`,
        cause: error,
      },
    );
  }
  return new TautlineError('flash/failed', `Flashing on ${port} failed while ${during}: ${said}`, {
    detail: `Try again.${after}`,
    cause: error,
  });
}
