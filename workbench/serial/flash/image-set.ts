import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { BOARD_IDS, type BoardId } from '../../../firmware/boards/board.ts';
import { TautlineError } from '../../../sim/errors.ts';
import { checkImages } from './check-images.ts';
import {
  BOOTLOADER_FILES,
  CHIP_LAYOUTS,
  MANIFEST,
  PARTITIONS_AT,
  PARTITIONS_FILES,
  PROGRAM_AT,
  PROGRAM_FILES,
  VERSIONED_PROGRAM,
} from './image-layout.ts';
import { type ImagePart, type ImageSet, readBytes } from './image-part.ts';
import { readManifest } from './read-manifest.ts';

/**
 * Reads the interpreter's image from a folder: after image.json if there is one, otherwise by the names of the
 * interpreter's release archives.
 * @param board what the user says the board is; undefined = as the files say
 * @throws TautlineError `image/...`
 */
export function readImages(folder: string, board: BoardId | undefined): ImageSet {
  if (!existsSync(folder) || !statSync(folder).isDirectory()) {
    throw new TautlineError('image/no-folder', `${folder}: there is no such folder.`, {
      detail:
        'Unpack the interpreter’s release archive for your board and name the folder with its .bin files.',
    });
  }
  const manifest = join(folder, MANIFEST);
  const set = existsSync(manifest) ? readManifest(folder, manifest) : byNames(folder, board);
  if (board !== undefined && set.board !== board) {
    throw new TautlineError(
      'image/other-board',
      `${folder} holds an image for ${set.board}; asked for was ${board}.`,
      {
        detail: 'Name the folder with the image for your board, or leave --board away.',
      },
    );
  }
  set.parts.sort((a, b) => a.at - b.at);
  checkImages(set);
  return set;
}

function byNames(folder: string, board: BoardId | undefined): ImageSet {
  const names = readdirSync(folder);
  const programs = (board === undefined ? BOARD_IDS : [board]).flatMap((id) =>
    names
      .filter((name) => PROGRAM_FILES[id].includes(name) || VERSIONED_PROGRAM[id].test(name))
      .map((name) => ({ id, name })),
  );
  if (programs.length !== 1) {
    const seen =
      programs.length === 0
        ? 'no program image'
        : `${programs.length} program images (${programs.map((p) => p.name).join(', ')})`;
    throw new TautlineError('image/program', `${folder}: ${seen}; expected one.`, {
      detail: `Known names: ${BOARD_IDS.flatMap((id) => PROGRAM_FILES[id]).join(', ')}, or with a release in it. Other names: say what goes where in ${MANIFEST}.`,
    });
  }
  const { id, name } = programs[0]!;
  const part = (file: string, at: number): ImagePart => ({ file, at, bytes: readBytes(folder, file) });
  return {
    board: id,
    parts: [
      part(oneOf(folder, names, BOOTLOADER_FILES, 'bootloader'), CHIP_LAYOUTS[id].bootloaderAt),
      part(oneOf(folder, names, PARTITIONS_FILES, 'partition table'), PARTITIONS_AT),
      part(name, PROGRAM_AT),
    ],
  };
}

function oneOf(folder: string, names: string[], wanted: string[], words: string): string {
  const found = wanted.filter((name) => names.includes(name));
  if (found.length === 1) return found[0]!;
  throw new TautlineError(
    'image/part',
    `${folder}: ${found.length === 0 ? 'no' : 'more than one'} ${words}; expected ${wanted.join(' or ')}.`,
    { detail: `Unpack the whole release archive into one folder, or say what goes where in ${MANIFEST}.` },
  );
}
