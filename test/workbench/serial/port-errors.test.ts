import { describe, expect, it } from 'vitest';
import { openError } from '../../../workbench/serial/port-errors.ts';

// First two: seen with serialport 13.0.0 on Linux. Others: from memory of the drivers' words.
describe('why a port does not open', () => {
  it.each([
    ['Error: No such file or directory, cannot open /dev/ttyUSB0', 'linux', 'port/missing'],
    ['Error Resource temporarily unavailable Cannot lock port', 'linux', 'port/busy'],
    ['Error: Device or resource busy, cannot open /dev/ttyUSB0', 'linux', 'port/busy'],
    ['Error: Resource busy, cannot open /dev/cu.usbserial', 'darwin', 'port/busy'],
    ['Opening COM3: Access denied', 'win32', 'port/busy'],
    ['Opening COM3: File not found', 'win32', 'port/missing'],
    ['Error: Permission denied, cannot open /dev/ttyUSB0', 'linux', 'port/denied'],
    ['Error: Inappropriate ioctl for device', 'linux', 'port/failed'],
  ])('%s (%s): %s', (said, platform, code) => {
    expect(openError('/dev/ttyUSB0', new Error(said), platform).code).toBe(code);
  });

  it('names the group on Linux', () => {
    const error = openError('/dev/ttyUSB0', new Error('Error: Permission denied, cannot open'), 'linux');
    expect(error.detail).toContain('dialout');
  });
});
