import { readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** Every file of the folder that a file lies in, hidden ones too, with its bytes and the time of its last change. */
export function stateAround(file: string): [name: string, content: string, changedMs: number][] {
  const folder = dirname(file);
  return readdirSync(folder)
    .sort()
    .map((name) => {
      const path = join(folder, name);
      return [name, readFileSync(path, 'base64'), statSync(path).mtimeMs];
    });
}
