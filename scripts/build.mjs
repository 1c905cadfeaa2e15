// Bundles the command line into dist/.
import { mkdirSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
process.chdir(root);
const { rollup } = await import('rollup');
const { default: config, board } = await import('../rollup.config.mjs');
const { default: page, chartStyle } = await import('../rollup.page.mjs');
const output = [...(await generate(board)), ...(await generate(config))];
const pageOutput = [
  ...(await generate(page)),
  { type: 'asset', fileName: 'chart.css', source: chartStyle() },
];

async function generate(one) {
  const bundle = await rollup(one);
  const { output } = await bundle.generate(one.output);
  await bundle.close();
  return output;
}

// Every file is put in place whole, so that a program that starts meanwhile, or a second build, finds no half
// ones. The command line comes last: its age tells how fresh the build is.
put('dist/page', pageOutput);
put(
  'dist',
  output.toSorted((a, b) => Number(a.fileName === 'cli.js') - Number(b.fileName === 'cli.js')),
);

function put(folder, files) {
  mkdirSync(folder, { recursive: true });
  for (const file of files) {
    const temporary = join(folder, `${file.fileName}.${process.pid}.tmp`);
    writeFileSync(temporary, file.type === 'chunk' ? file.code : file.source);
    renameSync(temporary, join(folder, file.fileName));
  }
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const isOurs = entry.isDirectory() || files.some((file) => file.fileName === entry.name);
    if (!entry.name.endsWith('.tmp') && !isOurs) rmSync(join(folder, entry.name));
  }
}
