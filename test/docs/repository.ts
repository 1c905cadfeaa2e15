import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('../..', import.meta.url));

/** Folders and files that are made, not written. */
const MADE = new Set(['node_modules', '.git', 'dist', 'coverage', '.tautline', 'tautline-report.html']);

/** Paths of all written files, from the root, with forward slashes. */
export function writtenFiles(folder = ROOT): string[] {
  return readdirSync(folder, { withFileTypes: true })
    .filter((entry) => !MADE.has(entry.name))
    .flatMap((entry) => {
      const path = join(folder, entry.name);
      if (entry.isDirectory()) return writtenFiles(path);
      return entry.isFile() ? [relative(ROOT, path).split(sep).join('/')] : [];
    })
    .sort();
}

export function textOf(path: string): string {
  return readFileSync(join(ROOT, path), 'utf8');
}
