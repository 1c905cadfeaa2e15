// Runs the program of an installed package with this Node, without a shell, on every system.
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const { resolve } = createRequire(import.meta.url);

/**
 * @param {string} name package
 * @param {string} program name of the program in it
 * @param {string[]} args
 * @param {Record<string, string>} env in addition to what is set already
 * @returns {number} exit code; 1 if the program could not be run or was stopped
 */
export function runPackage(name, program, args, env = {}) {
  let script;
  try {
    const manifest = resolve(`${name}/package.json`);
    const { bin } = JSON.parse(readFileSync(manifest, 'utf8'));
    script = join(dirname(manifest), typeof bin === 'string' ? bin : bin[program]);
  } catch (error) {
    console.error(`${name} is not installed (${error.code ?? error.message}). Run: node scripts/setup.mjs`);
    return 1;
  }
  const done = spawnSync(process.execPath, [script, ...args], {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, ...env },
  });
  if (done.error) console.error(`${program} could not be run: ${done.error.message}`);
  return done.status ?? 1;
}
