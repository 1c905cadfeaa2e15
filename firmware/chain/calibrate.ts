/** Largest word that means a travel; 65535 is kept for 'no valid value'. */
const WORD_MAX = 65534;

/**
 * Straight line from the smoothed reading to the word that crosses the wire. The store into an unsigned
 * 16-bit array drops the fraction. The captured ends map to 6553 and 58982, which leaves 10 % on both sides.
 * @param level smoothed reading, sum of `oversampling` readings of 0-1
 * @param gain words per reading unit, from `wordGain`
 * @param offset word at level 0, from `wordOffset`
 */
export function toWord(level: number, gain: number, offset: number): number {
  return level * gain + offset;
}

/**
 * Keeps a word inside its 16 bits. Without it a lifted wiper (reading 0) or a spike would wrap round and
 * show up at the *other* end of the finger's travel.
 */
export function saturate(word: number): number {
  return word < 0 ? 0 : word > WORD_MAX ? WORD_MAX : word;
}

/** 1 + 2^-15: brings 65535 above 65536, and 65534 not. */
const STRETCH = 32769 / 32768;

/**
 * Whether a word has left its range: below 0 or from 65535 on. One shift finds both sides, since such a number keeps
 * bits above its lowest 16 once it is stretched a little. May say yes for a word that `saturate` leaves as it is. For
 * words within 32 bits; not for NaN.
 */
export function overflows(word: number): boolean {
  return (word * STRETCH) >> 16 !== 0;
}
