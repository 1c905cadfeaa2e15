import { describe, expect, it } from 'vitest';
import { createPortFinder } from '../../../workbench/live/find-port.ts';
import type { PortInfo } from '../../../workbench/serial/list-ports.ts';
import { createTestPort } from './session-rig.ts';

const usb = (path: string, serialNumber: string, usbProductId = 0xea60): PortInfo => ({
  path,
  maker: '',
  serialNumber,
  usbVendorId: 0x10c4,
  usbProductId,
});
const BUILT_IN: PortInfo = {
  path: '/dev/ttyS0',
  maker: '',
  serialNumber: '',
  usbVendorId: undefined,
  usbProductId: undefined,
};

/** A finder over a list that the test changes. @returns the name found, or the code of the error */
function finder(wanted: string | undefined, ports: PortInfo[], files: string[] = []) {
  const world = { ports, files, trouble: '' };
  const find = createPortFinder({
    wanted,
    list: async () => ({ ports: world.ports, trouble: world.trouble }),
    exists: (path) => world.files.includes(path),
    make: (path) => createTestPort(path).link,
  });
  return {
    world,
    find: () =>
      find().then(
        (link) => link?.name,
        (error) => error.code as string,
      ),
  };
}

describe('finding the port', () => {
  it('takes the one that is named, among others', async () => {
    const { find } = finder('/dev/ttyUSB1', [usb('/dev/ttyUSB0', 'A'), usb('/dev/ttyUSB1', 'B')]);
    expect(await find()).toBe('/dev/ttyUSB1');
  });

  it('takes the one whose serial number is named', async () => {
    const { find } = finder('B', [usb('/dev/ttyUSB0', 'A'), usb('/dev/ttyUSB1', 'B')]);
    expect(await find()).toBe('/dev/ttyUSB1');
  });

  it('takes the only likely one when none is named; a built-in port is not likely', async () => {
    expect(await finder(undefined, [BUILT_IN, usb('COM7', '')]).find()).toBe('COM7');
    expect(await finder(undefined, [BUILT_IN]).find()).toBeUndefined();
    expect(await finder(undefined, []).find()).toBeUndefined();
  });

  it('does not guess between several', async () => {
    expect(await finder(undefined, [usb('COM3', 'A'), usb('COM4', 'B')]).find()).toBe('port/several');
    expect(await finder('0001', [usb('COM3', '0001'), usb('COM4', '0001')]).find()).toBe('port/serial-twice');
  });

  it('finds the same board under another name, and does not take another for it', async () => {
    const { world, find } = finder('/dev/ttyUSB0', [usb('/dev/ttyUSB0', 'A')]);
    expect(await find()).toBe('/dev/ttyUSB0');
    world.ports = [];
    expect(await find()).toBeUndefined();
    world.ports = [usb('/dev/ttyUSB0', 'B'), usb('/dev/ttyUSB1', 'A')];
    expect(await find()).toBe('/dev/ttyUSB1');
    world.ports = [usb('/dev/ttyUSB1', 'B')];
    expect(await find()).toBeUndefined();
    // The same number of another maker's chip.
    world.ports = [usb('/dev/ttyUSB2', 'A', 0x7523)];
    expect(await find()).toBeUndefined();
  });

  it('goes by the name alone where boards have no serial number', async () => {
    const { world, find } = finder('COM5', [usb('COM5', '')]);
    expect(await find()).toBe('COM5');
    world.ports = [usb('COM6', '')];
    expect(await find()).toBeUndefined();
    world.ports = [usb('COM5', '')];
    expect(await find()).toBe('COM5');
  });

  it('stays with the board that it took first when a second one is plugged in', async () => {
    const { world, find } = finder(undefined, [usb('COM3', 'A')]);
    expect(await find()).toBe('COM3');
    world.ports = [usb('COM4', 'B'), usb('COM3', 'A')];
    expect(await find()).toBe('COM3');
  });

  it('takes a path that is there though the system lists no such port', async () => {
    const { world, find } = finder('/dev/pts/4', [BUILT_IN], ['/dev/pts/4']);
    expect(await find()).toBe('/dev/pts/4');
    world.files = [];
    expect(await find()).toBeUndefined();
  });

  it('asks for a name where the system cannot list', async () => {
    const { world, find } = finder(undefined, []);
    world.trouble = 'udevadm: not found';
    expect(await find()).toBe('port/no-list');
  });
});
