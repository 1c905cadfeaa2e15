import { describe, expect, it } from 'vitest';
import { createTestPort, sessionRig } from './session-rig.ts';
import { createStreamingBoard } from './streaming-board.ts';
import { readAtOtherRate } from './uart-line.ts';

/** A session at 115200 on a board that sends at another rate: what is told, and when. */
async function listenTo(sentBaud: number, firstByteS: number) {
  const port = createTestPort('/dev/ttyUSB0');
  const board = createStreamingBoard((bytes) => {
    const read = readAtOtherRate(bytes, sentBaud, 115_200, 20);
    if (read.length > 0) port.send(read);
  });
  const rig = sessionRig(() => port.link);
  rig.session.start();
  await rig.run(firstByteS);
  board.restart(firstByteS, 0);
  await rig.run(firstByteS + 6, (nowS) => board.advance(nowS));
  return rig;
}

describe('a wrong rate', () => {
  it('the line’s model reads what was sent when the rates are the same', () => {
    const bytes = Uint8Array.from({ length: 256 }, (_, i) => i);
    expect(readAtOtherRate(bytes, 115_200, 115_200, 4)).toEqual(bytes);
    expect(readAtOtherRate(bytes, 115_200, 116_200, 4)).toEqual(bytes);
  });

  it.each([9600, 19_200, 38_400, 57_600, 74_880, 230_400, 250_000, 460_800, 921_600])(
    'of %i instead of 115200 is told within 2 s, once',
    async (sentBaud) => {
      const rig = await listenTo(sentBaud, 1);
      expect(rig.told('wrong-baud')).toHaveLength(1);
      expect(rig.told('wrong-baud')[0]!.hostS).toBeLessThanOrEqual(3);
      expect(rig.told('wrong-baud')[0]!.seen).toMatch(/at 115200 bits a second and no frame/);
      expect(rig.frames).toEqual([]);
      expect(rig.told('board-text')).toEqual([]);
    },
  );

  it('is not told of a board that sends text only', async () => {
    const port = createTestPort('A');
    const rig = sessionRig(() => port.link);
    rig.session.start();
    await rig.run(10, () => port.send(Uint8Array.from(Buffer.from('x=1\r\n>'))));
    expect(rig.told('wrong-baud')).toEqual([]);
    expect(rig.session.state()).toBe('listening');
  });

  it('is not told of a right one', async () => {
    const rig = await listenTo(115_200, 1);
    expect(rig.told('wrong-baud')).toEqual([]);
    expect(rig.frames.length).toBeGreaterThan(500);
  });
});
