import { rnd } from '../seed/mix.ts';

/** Thrown in the middle of a write or an erase: from here on the board is without power. */
export class PowerCut extends Error {
  constructor() {
    super('the power was cut');
    this.name = 'PowerCut';
  }
}

/**
 * NOR flash: programming can only clear bits, erasing sets a whole page. Counts its wear, and loses power on request.
 * A step is one programmed byte or one erased page. Simulated only in this order; see FIDELITY.md.
 */
export class Flash {
  readonly bytes: Uint8Array;
  programmedBytes = 0;
  erases = 0;
  private stepsLeft = Number.POSITIVE_INFINITY;
  private torn = 0;

  /** @param bytes a multiple of `pageBytes`; erased unless a content is given */
  constructor(
    bytes: number,
    readonly pageBytes: number,
    content?: Uint8Array,
  ) {
    this.bytes = new Uint8Array(bytes).fill(0xff);
    if (content) this.bytes.set(content);
  }

  /** A second flash with the same content and no power cut planned. */
  copy(): Flash {
    return new Flash(this.bytes.length, this.pageBytes, this.bytes);
  }

  /**
   * Plans a power cut.
   * @param steps whole steps until then
   * @param torn 0 = the next step leaves no trace; else the seed of which of its bits are done when the power goes
   */
  cutAfter(steps: number, torn: number): void {
    this.stepsLeft = steps;
    this.torn = torn;
  }

  program(at: number, data: ArrayLike<number>): void {
    for (let i = 0; i < data.length; i++) {
      if (this.stepsLeft-- <= 0) {
        const done = this.torn === 0 ? 0 : rnd(at + i, this.torn, 0) & 0xff;
        // bits of the mask have been cleared already where the data clears them
        if (done > 0) this.bytes[at + i] &= data[i]! | (~done & 0xff);
        throw new PowerCut();
      }
      this.bytes[at + i] &= data[i]!;
      this.programmedBytes++;
    }
  }

  /** Erases the page that starts at an address. A torn erase leaves about half of its cells as they were. */
  erasePage(at: number): void {
    const end = at + this.pageBytes;
    if (this.stepsLeft-- <= 0) {
      if (this.torn > 0) for (let i = at; i < end; i++) this.bytes[i] |= rnd(i, this.torn, 0) & 0xff;
      throw new PowerCut();
    }
    this.bytes.fill(0xff, at, end);
    this.erases++;
  }
}
