/** All that the board's program is made of. The bundler takes from it what a rig needs. */
export { slotStorageOf } from '../storage/slot-storage.ts';
export { beginCapture, endCapture } from './capture-hand.ts';
export { createCommandState } from './commands.ts';
export { getNumber, setNumber, zero } from './live-numbers.ts';
export { onPacket } from './on-packet.ts';
export {
  begin,
  captured,
  counter,
  ends,
  isCapturing,
  markStored,
  raw,
  refresh,
  reply,
  takeEnds,
} from './routines.ts';
export { startUp } from './start-up.ts';
export { countError, tick } from './tick.ts';
