import { readFileSync } from 'node:fs';
import { z } from 'zod';
import { BOARD_IDS } from '../../../firmware/boards/board.ts';
import { TautlineError } from '../../../sim/errors.ts';
import { type ImageSet, readBytes } from './image-part.ts';

const OFFSET = z.union([
  z.number().int().min(0).max(0xffffff),
  z
    .string()
    .regex(/^0x[0-9a-f]{1,6}$/i)
    .transform((text) => Number.parseInt(text, 16)),
]);

const MANIFEST_SHAPE = z.strictObject({
  board: z.enum(BOARD_IDS as [string, ...string[]]),
  files: z.array(z.strictObject({ file: z.string().min(1), at: OFFSET })).min(1),
});

/**
 * Reads `{"board": "esp32", "files": [{"file": "boot.bin", "at": "0x1000"}, ...]}`; offsets in bytes, as numbers or as
 * hexadecimal text.
 * @throws TautlineError `image/manifest`, `image/unreadable`
 */
export function readManifest(folder: string, path: string): ImageSet {
  let value: unknown;
  try {
    value = JSON.parse(readFileSync(path, 'utf8'));
  } catch (cause) {
    throw manifestError(path, (cause as Error).message);
  }
  const parsed = MANIFEST_SHAPE.safeParse(value);
  if (!parsed.success) {
    const issue = parsed.error.issues[0]!;
    throw manifestError(path, `${issue.path.join('.') || 'the whole'}: ${issue.message}`);
  }
  const { board, files } = parsed.data;
  return {
    board: BOARD_IDS.find((id) => id === board)!,
    parts: files.map(({ file, at }) => ({ file, at, bytes: readBytes(folder, file) })),
  };
}

function manifestError(path: string, what: string): TautlineError {
  return new TautlineError('image/manifest', `${path}: ${what}.`, {
    detail: `Expected {"board": "${BOARD_IDS.join('" or "')}", "files": [{"file": "bootloader.bin", "at": "0x1000"}, ...]}.`,
  });
}
