import type { BoardPlan } from '../../firmware/main/board-plan.ts';
import { createDevice, type Device, type DeviceOptions } from '../../sim/device/device.ts';
import type { Rig } from '../../sim/rig/rig.ts';
import type { Link, LinkEnd } from '../serial/link.ts';
import type { Clock } from './session-types.ts';

/** The longest that the simulated board is let run without a break, s: a page that slept does not catch up on hours. */
const MOST_CATCH_UP_S = 2;
/** How often the board runs, s. */
const RUN_S = 0.01;

export interface SimulatedLink extends Link {
  /** The board behind it: for faults, resets, and the truth. */
  device: Device;
}

/** The simulator as a port: its board runs with the clock from the moment that the port is open. */
export function createSimulatedLink(
  rig: Rig,
  plan: BoardPlan,
  options: Omit<DeviceOptions, 'onBytes'>,
  clock: Clock,
): SimulatedLink {
  let hearData: ((bytes: Uint8Array) => void) | undefined;
  const hearEnd: ((end: LinkEnd) => void)[] = [];
  let ended: LinkEnd | undefined;
  let stop: (() => void) | undefined;
  let openedS = 0;
  const device = createDevice(rig, plan, {
    ...options,
    onBytes: (bytes) => {
      if (stop) hearData?.(bytes);
    },
  });

  return {
    name: 'simulator',
    device,
    async open() {
      openedS = clock.nowS() - device.nowS();
      stop = clock.every(RUN_S, () => {
        const toS = clock.nowS() - openedS;
        if (toS - device.nowS() > MOST_CATCH_UP_S) openedS = clock.nowS() - device.nowS() - RUN_S;
        device.advance(clock.nowS() - openedS);
      });
    },
    async write(bytes) {
      if (stop) device.receive(bytes);
    },
    setLines: async () => true,
    setBaud: async () => {},
    onData(listener) {
      hearData = listener;
    },
    onEnd(listener) {
      if (ended) listener(ended);
      else hearEnd.push(listener);
    },
    async close() {
      stop?.();
      stop = undefined;
      if (ended) return;
      ended = { reason: 'closed', detail: '' };
      for (const listener of hearEnd.splice(0)) listener(ended);
    },
  };
}
