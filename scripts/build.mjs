// Bundles the command line into dist/.
import { mkdirSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
process.chdir(root);
const { rollup } = await import('rollup');
const { default: config, board } = await import('../rollup.config.mjs');
const output = [...(await generate(board)), ...(await generate(config))];

async function generate(one) {
  const bundle = await rollup(one);
  const { output } = await bundle.generate(one.output);
  await bundle.close();
  return output;
}

// Every file is put in place whole, so that a program that starts meanwhile, or a second build, finds no half
// ones. The command line comes last: its age tells how fresh the build is.
mkdirSync('dist', { recursive: true });
const files = output.toSorted((a, b) => Number(a.fileName === 'cli.js') - Number(b.fileName === 'cli.js'));
for (const file of files) {
  const temporary = join('dist', `${file.fileName}.${process.pid}.tmp`);
  writeFileSync(temporary, file.type === 'chunk' ? file.code : file.source);
  renameSync(temporary, join('dist', file.fileName));
}
for (const name of readdirSync('dist')) {
  if (!name.endsWith('.tmp') && !files.some((file) => file.fileName === name)) rmSync(join('dist', name));
}
