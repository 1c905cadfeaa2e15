/** The board's modules as one chunk, made by the build. */
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type EncodedSourceMap, originalPositionFor, TraceMap } from '@jridgewell/trace-mapping';
import { TautlineError } from '../../sim/errors.ts';
import { parseSource, type Source } from '../../specialise/source.ts';

export interface BoardSource {
  source: Source;
  /** Place in the TypeScript source of an offset in the chunk. */
  placeOf: (offset: number) => { file: string; line: number };
}

/** Beside the built command line; in the source tree that is two folders up. */
const PLACES = ['board.mjs', '../../dist/board.mjs'];

/** @throws TautlineError `bundle/no-source` when the build has not made it */
export function readBoardSource(): BoardSource {
  const path = PLACES.map((place) => fileURLToPath(new URL(place, import.meta.url))).find((p) =>
    existsSync(p),
  );
  if (path === undefined) {
    throw new TautlineError(
      'bundle/no-source',
      'The board’s modules, which the build puts into dist/board.mjs, are not there. Run "npm run build".',
    );
  }
  const text = readFileSync(path, 'utf8');
  const map = new TraceMap(JSON.parse(readFileSync(`${path}.map`, 'utf8')) as EncodedSourceMap);
  const lineStarts = [0];
  for (let i = text.indexOf('\n'); i >= 0; i = text.indexOf('\n', i + 1)) lineStarts.push(i + 1);
  return {
    source: parseSource(text),
    placeOf(offset) {
      let line = lineStarts.findLastIndex((start) => start <= offset);
      if (line < 0) line = 0;
      const column = offset - lineStarts[line]!;
      const found = originalPositionFor(map, { line: line + 1, column });
      return found.source === null
        ? { file: 'board.mjs', line: line + 1 }
        : { file: found.source.replace(/^(\.\.\/)+/, ''), line: found.line };
    },
  };
}
