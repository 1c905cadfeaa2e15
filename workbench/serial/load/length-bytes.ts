/**
 * Tells the two length bytes of the board's packets (0x10 0x01 high low ...) from flow control: a length of 17 or 19
 * looks like XON or XOFF. The packets' contents are text here, so there such bytes are flow control indeed.
 * @returns a function that is given every byte outside frames, in order, and says whether it is a length byte
 */
export function createLengthBytes(): (byte: number) => boolean {
  /** 0 outside, 1 after 0x10, 2 and 3 before the length bytes. */
  let state = 0;
  return (byte) => {
    if (state >= 2) {
      state = state === 2 ? 3 : 0;
      return true;
    }
    state = byte === 0x10 ? 1 : state === 1 && byte === 0x01 ? 2 : 0;
    return false;
  };
}
