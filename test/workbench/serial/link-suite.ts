import { afterEach, describe, expect, it } from 'vitest';
import { type Link, type LinkEnd, RUN_LINES } from '../../../workbench/serial/link.ts';

export interface Made {
  link: Link;
  /** Pulls the cable. */
  pull(): void;
  /** Takes away what the test made besides. */
  tidy(): Promise<void>;
}

function endOf(link: Link): Promise<LinkEnd> {
  return new Promise((resolve) => link.onEnd(resolve));
}

/** What every kind of link does. @param make gives an unopened link whose far end sends everything back */
export function linkSuite(kind: string, make: () => Promise<Made>): void {
  describe(`link: ${kind}`, () => {
    let made: Made | undefined;
    afterEach(async () => {
      await made?.link.close();
      await made?.tidy();
    });

    it('brings every byte value there and back, in order', async () => {
      made = await make();
      const { link } = made;
      await link.open(115_200, RUN_LINES);
      const sent = Uint8Array.from({ length: 1024 }, (_, i) => (i * 7) & 255);
      const back: number[] = [];
      const whole = new Promise<void>((resolve) =>
        link.onData((bytes) => {
          back.push(...bytes);
          if (back.length >= sent.length) resolve();
        }),
      );
      for (let at = 0; at < sent.length; at += 100) await link.write(sent.subarray(at, at + 100));
      await whole;
      expect(back).toEqual([...sent]);
    });

    it('takes a change of lines and of rate, also where there are no lines', async () => {
      made = await make();
      await made.link.open(115_200, RUN_LINES);
      expect(typeof (await made.link.setLines({ rts: false }))).toBe('boolean');
      await made.link.setBaud(460_800);
    });

    it('tells that it was closed, once, and refuses to write afterwards', async () => {
      made = await make();
      const { link } = made;
      const ends: LinkEnd[] = [];
      link.onEnd((end) => ends.push(end));
      await link.open(115_200, RUN_LINES);
      await link.close();
      await link.close();
      expect(ends).toEqual([{ reason: 'closed', detail: '' }]);
      expect((await endOf(link)).reason).toBe('closed');
      await expect(link.write(Uint8Array.of(1))).rejects.toMatchObject({ code: 'port/gone' });
    });

    it('tells that the cable was pulled, without being asked', async () => {
      made = await make();
      const { link } = made;
      await link.open(115_200, RUN_LINES);
      const end = endOf(link);
      made.pull();
      expect((await end).reason).toBe('gone');
      await expect(link.write(Uint8Array.of(1))).rejects.toMatchObject({ code: 'port/gone' });
    });
  });
}
