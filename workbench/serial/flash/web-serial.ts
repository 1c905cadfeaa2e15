import type { LineStates, Link } from '../link.ts';

/** Numbers by which the flashing library recognises chips with a USB controller of their own. */
export interface UsbIds {
  usbVendorId?: number;
  usbProductId?: number;
}

/** What the flashing library uses of the browser's Web Serial port. */
export interface WebSerialPort {
  readonly readable: ReadableStream<Uint8Array> | null;
  readonly writable: WritableStream<Uint8Array> | null;
  open(options: { baudRate: number }): Promise<void>;
  close(): Promise<void>;
  setBaudRate(baud: number): Promise<void>;
  setSignals(signals: { dataTerminalReady?: boolean; requestToSend?: boolean }): Promise<void>;
  getInfo(): UsbIds;
}

/**
 * An open link in the shape of a Web Serial port. Opening and closing it opens and closes streams only: the link is
 * its owner's to release.
 * @param onHeard is given all bytes, to look at what the board says besides answers
 */
export function webSerialOver(link: Link, usb: UsbIds, onHeard: (bytes: Uint8Array) => void): WebSerialPort {
  let readable: ReadableStream<Uint8Array> | null = null;
  let writable: WritableStream<Uint8Array> | null = null;
  let feed: ReadableStreamDefaultController<Uint8Array> | undefined;

  link.onData((bytes) => {
    onHeard(bytes);
    feed?.enqueue(Uint8Array.from(bytes));
  });

  function closeStreams(): void {
    try {
      feed?.close();
    } catch {
      // The reader cancelled it before.
    }
    feed = undefined;
    readable = null;
    writable = null;
  }
  link.onEnd(closeStreams);

  return {
    get readable() {
      return readable;
    },
    get writable() {
      return writable;
    },
    async open({ baudRate }) {
      await link.setBaud(baudRate);
      readable = new ReadableStream<Uint8Array>({
        start(controller) {
          feed = controller;
        },
        cancel() {
          feed = undefined;
        },
      });
      writable = new WritableStream<Uint8Array>({ write: (bytes) => link.write(bytes) });
    },
    async close() {
      closeStreams();
    },
    setBaudRate: (baud) => link.setBaud(baud),
    async setSignals({ dataTerminalReady, requestToSend }) {
      const lines: Partial<LineStates> = {};
      if (dataTerminalReady !== undefined) lines.dtr = dataTerminalReady;
      if (requestToSend !== undefined) lines.rts = requestToSend;
      await link.setLines(lines);
    },
    getInfo: () => usb,
  };
}
