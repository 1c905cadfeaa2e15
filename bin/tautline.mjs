#!/usr/bin/env node
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const built = new URL('../dist/cli.js', import.meta.url);
if (existsSync(fileURLToPath(built))) {
  const { main } = await import(built.href);
  await main(process.argv.slice(2));
} else {
  process.stderr.write(
    'tautline is not built yet: dist/cli.js is missing. Run "npm run build" in its folder first.\n',
  );
  process.exitCode = 2;
}
