import { posix } from 'node:path';
import { describe, expect, it } from 'vitest';
import { textOf, writtenFiles } from './repository.ts';

const FILES = writtenFiles();
const CODE = FILES.filter((path) => /\.(ts|mjs)$/.test(path));

/** Rooms that each room may import, besides itself. */
const MAY_IMPORT: Record<string, string[]> = {
  protocol: [],
  firmware: ['protocol'],
  specialise: [],
  sim: ['firmware', 'protocol'],
  workbench: ['sim', 'firmware', 'protocol', 'specialise'],
};
const BOARD_ROOMS = ['protocol', 'firmware'];

/** Everything a module names after `from`, `import` or `import(`, and in `new URL(..., import.meta.url)`. */
function importsOf(source: string): string[] {
  const code = source.replace(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$/gm, '');
  const named =
    /\b(?:from|import)\s*\(?\s*(['"])([^'"\n]+)\1|\bnew URL\(\s*(['"])([^'"\n]+)\3\s*,\s*import\.meta/g;
  return [...code.matchAll(named)].map((match) => match[2] ?? match[4] ?? '');
}

/** What is wrong with the imports of one file; empty if nothing is. */
function wrongImports(path: string, source: string): string[] {
  const room = path.split('/')[0] ?? '';
  const allowed = MAY_IMPORT[room];
  if (allowed === undefined) return [];
  return importsOf(source).filter((name) => {
    if (!name.startsWith('.')) return BOARD_ROOMS.includes(room);
    const target = posix.join(posix.dirname(path), name).split('/')[0] ?? '';
    return target !== room && !allowed.includes(target);
  });
}

describe('rooms', () => {
  it('are all there and hold code', () => {
    for (const room of Object.keys(MAY_IMPORT))
      expect(CODE.filter((path) => path.startsWith(`${room}/`)).length, room).toBeGreaterThan(5);
  });

  it('import only in the allowed direction; board rooms import no packages and nothing of Node', () => {
    const wrong = CODE.flatMap((path) =>
      wrongImports(path, textOf(path)).map((name) => `${path} imports ${name}`),
    );
    expect(wrong).toEqual([]);
  });

  it.each([
    ['sim/a.ts', "import { x } from '../workbench/b.ts';", ['../workbench/b.ts']],
    ['sim/a/b.ts', "export * from '../../test/b.ts';", ['../../test/b.ts']],
    ['firmware/a.ts', "import { x } from '../sim/b.ts';", ['../sim/b.ts']],
    ['firmware/a.ts', "import type {\n  X,\n} from '../sim/b.ts';", ['../sim/b.ts']],
    ['firmware/a.ts', "import fs from 'node:fs';", ['node:fs']],
    ['firmware/a.ts', "import 'zod';", ['zod']],
    ['protocol/a.ts', "const x = await import('../firmware/b.ts');", ['../firmware/b.ts']],
    ['protocol/a.ts', "type X = import('../firmware/b.ts').X;", ['../firmware/b.ts']],
    ['sim/a.ts', "new URL('../workbench/w.ts', import.meta.url)", ['../workbench/w.ts']],
    ['firmware/a.ts', "import { x } from '../protocol/b.ts';\n// from '../sim/c.ts'", []],
    ['workbench/a/b.ts', "import { x } from '../../sim/b.ts';\nimport { y } from './c.ts';", []],
  ])('would be caught: %s with %j', (path, source, wrong) => {
    expect(wrongImports(path, source)).toEqual(wrong);
  });

  it('name the files they import with their ends', () => {
    const bare = CODE.flatMap((path) =>
      importsOf(textOf(path))
        .filter((name) => name.startsWith('.') && !/\.(ts|mjs|js|json|md)$|\/$|\.\.$/.test(name))
        .map((name) => `${path} imports ${name}`),
    );
    // The examples of this very file are text, not imports.
    expect(bare.filter((line) => !line.startsWith('test/docs/rooms.test.ts'))).toEqual([]);
  });
});

describe('files', () => {
  it('have no more than 400 lines, but for tables of data', () => {
    const table = /(-data|-table|-figures|-vectors|published)\.ts$/;
    const long = CODE.filter((path) => !table.test(path))
      .map((path) => [path, textOf(path).split('\n').length - 1] as const)
      .filter(([, lines]) => lines > 400);
    expect(long).toEqual([]);
  });

  it('are named in kebab-case, and documents in capitals', () => {
    const odd = FILES.filter((path) =>
      path
        .split('/')
        .some(
          (name) =>
            !/^\.?[a-z0-9]+(-[a-z0-9]+)*(\.[a-z0-9]+(-[a-z0-9]+)*)*$/.test(name) &&
            !/^[A-Z]+(\.md)?$/.test(name),
        ),
    );
    expect(odd).toEqual([]);
  });

  it('say nothing about unfinished work or about the place where they were written', () => {
    // Put together here, so that this file does not hold them.
    const banned = [
      ['TO', 'DO'],
      ['FIX', 'ME'],
      ['X', 'XX'],
      ['/wo', 'rk/'],
      ['handbook', '.md'],
      ['runtime', '.md'],
    ];
    const words = banned.map((parts) => parts.join(''));
    const found = FILES.filter((path) => path !== 'package-lock.json').flatMap((path) => {
      const text = textOf(path);
      return words
        .filter((word) => new RegExp(`(?<![A-Za-z0-9])${word.replace('.', '\\.')}`).test(text))
        .map((word) => `${path}: ${word}`);
    });
    expect(found).toEqual([]);
  });

  it('end their lines with a line feed, the last one too', () => {
    const odd = FILES.filter((path) => {
      const text = textOf(path);
      return text.includes('\r\n') || (text !== '' && !text.endsWith('\n'));
    });
    expect(odd).toEqual([]);
  });
});
