import { TautlineError } from '../../sim/errors.ts';
import type { Link } from '../serial/link.ts';
import type { PortInfo, PortList } from '../serial/list-ports.ts';

export interface PortChoice {
  /** Path of a port, or the serial number of the board or its adapter; undefined = the only likely port. */
  wanted: string | undefined;
  list: () => Promise<PortList>;
  /** Whether a path is there, for ports that the system does not list. */
  exists: (path: string) => boolean;
  /** Makes a link of a path, without opening it. */
  make: (path: string) => Link;
}

/**
 * Makes the `find` of a session. A port that was found once is known by its serial number from then on, so that it is
 * found again under another name; another board in its place is not taken for it.
 * @returns a function that gives undefined while there is no such port
 * @throws TautlineError (the function that is returned) `port/several` when no port is named and more than one is
 *   likely, `port/serial-twice` when a serial number fits several
 */
export function createPortFinder(choice: PortChoice): () => Promise<Link | undefined> {
  let known: PortInfo | undefined;

  return async () => {
    const { ports, trouble } = await choice.list();
    const found = known ? again(known, ports) : first(choice.wanted, ports);
    if (found) {
      known = found;
      return choice.make(found.path);
    }
    if (known && known.serialNumber !== '') return undefined;
    // Not listed: a pseudo-terminal, a link in /dev/serial/by-id, or a system that cannot list.
    const path = known?.path ?? choice.wanted;
    if (path === undefined) {
      if (trouble !== '') {
        throw new TautlineError('port/no-list', `The system did not list its ports (${trouble}).`, {
          detail: 'Name the port: --port /dev/ttyUSB0, for instance.',
        });
      }
      return undefined;
    }
    return choice.exists(path) ? choice.make(path) : undefined;
  };
}

/** The port that was used before: by serial number if it has one, else by its path. */
function again(known: PortInfo, ports: PortInfo[]): PortInfo | undefined {
  const sameDevice = (port: PortInfo) =>
    port.serialNumber === known.serialNumber &&
    port.usbVendorId === known.usbVendorId &&
    port.usbProductId === known.usbProductId;
  const samePath = ports.find((port) => port.path === known.path);
  if (samePath && sameDevice(samePath)) return samePath;
  return known.serialNumber === '' ? undefined : ports.find(sameDevice);
}

function first(wanted: string | undefined, ports: PortInfo[]): PortInfo | undefined {
  if (wanted === undefined) {
    const likely = ports.filter((port) => port.usbVendorId !== undefined);
    if (likely.length > 1) throw several('port/several', `${likely.length} ports may have the board`, likely);
    return likely[0];
  }
  const byPath = ports.find((port) => port.path === wanted);
  if (byPath) return byPath;
  const bySerial = ports.filter((port) => port.serialNumber !== '' && port.serialNumber === wanted);
  if (bySerial.length > 1)
    throw several('port/serial-twice', `${bySerial.length} ports have the serial number ${wanted}`, bySerial);
  return bySerial[0];
}

function several(code: string, seen: string, ports: PortInfo[]): TautlineError {
  const names = ports.map((port) => port.path).join(', ');
  return new TautlineError(code, `${seen}: ${names}.`, {
    detail: 'Expected one. Name it with --port; "tautline ports" shows what each of them is.',
  });
}
