import { describe, expect, it } from 'vitest';
import { RUN_LINES } from '../../../workbench/serial/link.ts';
import { createSerialLink } from '../../../workbench/serial/serial-link.ts';
import { linkSuite, type Made } from './link-suite.ts';
import { onPty } from './on-pty.ts';
import { HAS_PTY, PTY_NOTE } from './pty.ts';

async function echoing(): Promise<Made> {
  const { pty } = await onPty((plug) => ({ receive: (bytes) => plug.send(bytes) }));
  return { link: createSerialLink(pty.path), pull: () => void pty.destroy(), tidy: () => pty.destroy() };
}

if (HAS_PTY) linkSuite('serial driver', echoing);

describe.skipIf(!HAS_PTY)(`serial driver${PTY_NOTE}`, () => {
  it('tells a port that another program has open', async () => {
    const made = await echoing();
    await made.link.open(115_200, RUN_LINES);
    const second = createSerialLink(made.link.name);
    await expect(second.open(115_200, RUN_LINES)).rejects.toMatchObject({ code: 'port/busy' });
    await second.close();
    await made.link.close();
    await made.tidy();
  });

  it('tells a port that is not there', async () => {
    const link = createSerialLink('/dev/tautline-none');
    await expect(link.open(115_200, RUN_LINES)).rejects.toMatchObject({ code: 'port/missing' });
    await link.close();
  });
});
