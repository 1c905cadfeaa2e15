import { existsSync } from 'node:fs';
import type { Link } from '../serial/link.ts';
import { listPorts } from '../serial/list-ports.ts';
import { createSerialLink } from '../serial/serial-link.ts';
import { createPortFinder } from './find-port.ts';

/**
 * The `find` of a session for ports of this computer.
 * @param wanted path or serial number; undefined = the only likely port
 */
export function createSerialFinder(wanted: string | undefined): () => Promise<Link | undefined> {
  return createPortFinder({
    wanted,
    list: listPorts,
    // Windows has no files for its ports: what it does not list is tried all the same.
    exists: (path) => (process.platform === 'win32' ? /^(\\\\\.\\)?COM\d+$/i.test(path) : existsSync(path)),
    make: createSerialLink,
  });
}
