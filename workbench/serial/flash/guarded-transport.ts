import { Transport } from 'esptool-js';
import type { Ending } from '../ending.ts';
import type { WebSerialPort } from './web-serial.ts';

/**
 * The flashing library's transport, silent, and quick to give up once the work has ended: on its own it would go on
 * waiting for a port that is gone.
 */
export function createGuardedTransport(port: WebSerialPort, ending: Ending): Transport {
  const transport = new Transport(port as never, false);
  // It traces to the console, tracing or not.
  transport.trace = () => {};
  const { read, write, setSignals, setRTS, setDTR } = transport;
  transport.read = (timeout) => ending.until(read.call(transport, timeout));
  transport.write = (data) => ending.until(write.call(transport, data));
  transport.setSignals = (dtr, rts, brk) => ending.until(setSignals.call(transport, dtr, rts, brk));
  transport.setRTS = (state) => ending.until(setRTS.call(transport, state));
  transport.setDTR = (state) => ending.until(setDTR.call(transport, state));
  return transport;
}
