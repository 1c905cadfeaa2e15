import { TautlineError } from '../../sim/errors.ts';
import type { LinkEnd } from './link.ts';

/**
 * What the driver says when a port cannot be opened, as an error with advice.
 * Words of the drivers: read in serialport/bindings-cpp 13.0.0 and seen on Linux; those of Windows and macOS from
 * memory.
 * @param platform as in process.platform
 */
export function openError(name: string, cause: unknown, platform: string = process.platform): TautlineError {
  const said = cause instanceof Error ? cause.message : String(cause);
  if (/no such file|file not found|cannot find|ENOENT|no such device|ENXIO/i.test(said)) {
    return new TautlineError('port/missing', `There is no port ${name}.`, {
      detail:
        'Expected the path of a plugged-in board. Check the cable (some carry power only), then run: tautline ports',
      cause,
    });
  }
  const windows = platform === 'win32';
  if (
    /cannot lock|resource (temporarily unavailable|busy)|device or resource busy|EBUSY|EAGAIN/i.test(said)
  ) {
    return busyError(name, cause);
  }
  // Windows says "access denied" for a port that another program holds.
  if (windows && /access (is )?denied/i.test(said)) return busyError(name, cause);
  if (/permission denied|access (is )?denied|EACCES|EPERM|operation not permitted/i.test(said)) {
    return new TautlineError('port/denied', `You may not open ${name}.`, {
      detail:
        platform === 'linux'
          ? 'On Linux serial ports belong to a group, mostly dialout: run "sudo usermod -aG dialout $USER", log out and in again, and check with "groups". On Arch the group is uucp.'
          : `Give your user the right to open ${name}. The system said: ${said}`,
      cause,
    });
  }
  return new TautlineError('port/failed', `${name} could not be opened: ${said}`, {
    detail: 'Unplug the board, plug it in again, and run "tautline ports" to see its path.',
    cause,
  });
}

function busyError(name: string, cause: unknown): TautlineError {
  return new TautlineError('port/busy', `Another program has ${name} open.`, {
    detail:
      'Close serial monitors, terminals, plotters, 3D-printer and slicer programs, and other runs of tautline; then try again.',
    cause,
  });
}

/**
 * A port that ended in the middle of the work.
 * @param during what was being done, for instance "writing the image"
 * @param next what the end means for the board, and what to do
 */
export function endError(name: string, end: LinkEnd, during: string, next: string): TautlineError {
  if (end.reason === 'failed') {
    return new TautlineError(
      'port/failed',
      `${name} failed while ${during}: ${end.detail || 'no reason given'}.`,
      {
        detail: next,
      },
    );
  }
  return new TautlineError('port/gone', `${name} went away while ${during}.`, {
    detail: `Unplugged, a loose cable, or a board whose supply broke down. ${next}`,
  });
}
