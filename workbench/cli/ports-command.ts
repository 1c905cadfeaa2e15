import { Command } from 'commander';
import { textTable } from './text-table.ts';

export function portsCommand(): Command {
  return new Command('ports')
    .summary('list the serial ports')
    .option('--json', 'print the list as JSON')
    .action(run);
}

async function run(options: { json?: true }): Promise<void> {
  const { listPorts } = await import('../serial/list-ports.ts');
  const { ports, trouble } = await listPorts();
  if (options.json) {
    process.stdout.write(`${JSON.stringify({ command: 'ports', ports, trouble })}\n`);
    return;
  }
  if (trouble !== '') {
    process.stderr.write(
      `The system did not list its ports (${trouble}). They can be opened all the same: look for /dev/ttyUSB*, /dev/ttyACM* or /dev/cu.*.\n`,
    );
    return;
  }
  if (ports.length === 0) {
    process.stdout.write('No serial port found. Plug the board in; some USB cables carry power only.\n');
    return;
  }
  const hex = (value: number | undefined): string =>
    value === undefined ? '-' : value.toString(16).padStart(4, '0');
  const rows = ports.map((port) => [
    port.path,
    `${hex(port.usbVendorId)}:${hex(port.usbProductId)}`,
    port.maker || '-',
    port.serialNumber || '-',
  ]);
  const table = textTable([['port', 'USB', 'maker', 'serial number'], ...rows], {
    columns: process.stdout.columns ?? 80,
    flexible: [2, 3],
  });
  process.stdout.write(`${table.join('\n')}\n`);
}
