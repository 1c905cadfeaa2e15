import type { FarEnd, Plug } from '../../../workbench/serial/memory-link.ts';
import { openPty, type Pty } from './pty.ts';

/** Puts a far end behind a pseudo-terminal. It sees no lines and no rates: such ports have none. */
export async function onPty<T extends FarEnd>(make: (plug: Plug) => T): Promise<{ pty: Pty; far: T }> {
  const pty = await openPty();
  if (!pty) throw new Error('no pseudo-terminal');
  const far = make({
    send: (bytes) => pty.send(bytes),
    pull: () => void pty.destroy(),
    isOpen: () => true,
  });
  pty.onData((bytes) => far.receive(bytes));
  return { pty, far };
}
