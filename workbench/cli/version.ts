import { readFileSync } from 'node:fs';

/** Version of the package, from the one place where it is written. */
export const VERSION: string = JSON.parse(
  readFileSync(
    // The built program lies one folder below the package, the source two.
    new URL(import.meta.url.endsWith('.ts') ? '../../package.json' : '../package.json', import.meta.url),
    'utf8',
  ),
).version;
