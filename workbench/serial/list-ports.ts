import { SerialPort } from 'serialport';

/** A port that the system lists. Numbers of USB devices are undefined for ports that are not USB. */
export interface PortInfo {
  path: string;
  /** Maker and serial number as the device tells them, or ''. */
  maker: string;
  serialNumber: string;
  usbVendorId: number | undefined;
  usbProductId: number | undefined;
}

export interface PortList {
  ports: PortInfo[];
  /** Why the list could not be made, or ''. Ports can be opened by path all the same. */
  trouble: string;
}

/** Lists serial ports; never throws: slim Linux systems without udevadm cannot list, but open. */
export async function listPorts(): Promise<PortList> {
  try {
    const found = await SerialPort.list();
    const ports = found.map((port) => ({
      path: port.path,
      maker: port.manufacturer ?? '',
      serialNumber: port.serialNumber ?? '',
      usbVendorId: hex(port.vendorId),
      usbProductId: hex(port.productId),
    }));
    return { ports, trouble: '' };
  } catch (error) {
    return { ports: [], trouble: error instanceof Error ? error.message : String(error) };
  }
}

function hex(text: string | undefined): number | undefined {
  const value = text === undefined ? Number.NaN : Number.parseInt(text, 16);
  return Number.isNaN(value) ? undefined : value;
}
