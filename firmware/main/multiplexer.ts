/** Level of one select line of an 8-channel analog multiplexer. @param line 0-2, line 0 counts 1 */
export function selectBit(channel: number, line: number): number {
  return (channel >> line) & 1;
}

/**
 * Channel that is read as the n-th. In this order (Gray code) only one line changes from one to the next, the last
 * back to the first included: no third channel is connected on the way, whose capacitor would share its charge.
 * @param step 0-7
 */
export function channelAt(step: number): number {
  return step ^ (step >> 1);
}
