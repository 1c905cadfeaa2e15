/** Host only. Sorts the bytes of a line that belong to no frame. */

export const STRAY_GARBAGE = 0;
export const STRAY_TEXT = 1;
export const STRAY_ACKNOWLEDGE = 2;
export const STRAY_FLOW_CONTROL = 3;

function createClasses(): Uint8Array {
  const classes = new Uint8Array(256);
  for (let byte = 0x20; byte <= 0x7e; byte++) classes[byte] = STRAY_TEXT;
  // backspace, tab, line feed, carriage return, escape: a console's prompt uses them
  for (const byte of [0x08, 0x09, 0x0a, 0x0d, 0x1b]) classes[byte] = STRAY_TEXT;
  // ACK and NAK answer the host's packets
  classes[0x06] = STRAY_ACKNOWLEDGE;
  classes[0x15] = STRAY_ACKNOWLEDGE;
  // XON and XOFF: the board's input buffer fills up
  classes[0x11] = STRAY_FLOW_CONTROL;
  classes[0x13] = STRAY_FLOW_CONTROL;
  return classes;
}

/** Class of each byte value. */
export const STRAY_CLASS = createClasses();
