import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { createProgram } from '../../workbench/cli/run.ts';
import { runCli } from '../workbench/cli/run-cli.ts';
import { runHere } from '../workbench/cli/run-here.ts';
import { ROOT, textOf, writtenFiles } from './repository.ts';

const LONG = process.env.TAUTLINE_VERIFY === '1';
const README = textOf('README.md');
const DOCUMENTS = writtenFiles().filter((path) => path.endsWith('.md'));
const { scripts } = JSON.parse(textOf('package.json')) as { scripts: Record<string, string> };

/** Lines of the fenced blocks in a language, without their comments. */
function blockLines(text: string, language: string): string[] {
  return [...text.matchAll(/^```(\w*)\n([\s\S]*?)^```/gm)]
    .filter(([, tag]) => tag === language)
    .flatMap(([, , body]) => body.split('\n'))
    .map((line) => line.replace(/\s+#.*$/, '').trim())
    .filter((line) => line !== '' && !line.startsWith('#'));
}

/** Command lines in a text, in blocks and in running text, without the program's name. */
function commandsIn(text: string): string[] {
  const inline = [...text.matchAll(/`(?:npx )?tautline ([^`\n]+)`/g)].map(([, line]) => line);
  const blocks = blockLines(text, 'sh')
    .filter((line) => line.startsWith('npx tautline '))
    .map((line) => line.slice('npx tautline '.length));
  return [...new Set([...blocks, ...inline])];
}

/** Throws what the program would throw at a command line, without doing the work. */
async function parseOnly(line: string): Promise<void> {
  const program = createProgram();
  for (const command of [program, ...program.commands]) {
    command.configureOutput({ writeErr() {}, writeOut() {} });
    if (command !== program) command.action(() => {});
  }
  // What a reader puts in: <rig> and [file] stand for a file.
  const args = line.replace(/[[<](\w+)[\]>]/g, '$1').split(/\s+/);
  await program.parseAsync(args, { from: 'user' });
}

const folder = mkdtempSync(join(tmpdir(), 'tautline-docs-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('the README', () => {
  it('opens with one paragraph, then names the two commands that start and test', () => {
    const parts = README.split(/\n{2,}/);
    expect(parts[0]).toBe('# Tautline');
    expect(parts[1].length).toBeGreaterThan(200);
    expect(parts[1]).not.toMatch(/^[#`|-]/);
    expect(parts[2].length).toBeLessThan(200);
    expect(parts[3]).toMatch(/^```sh\nnpm start\b.*\nnpm test\b/);
  });

  it('has commands to try', () => {
    expect(commandsIn(README).length).toBeGreaterThanOrEqual(6);
    expect(blockLines(README, 'sh')).toEqual(expect.arrayContaining(['npm start', 'npm test']));
  });

  it.each(DOCUMENTS.flatMap((path) => commandsIn(textOf(path)).map((line) => [path, line])))(
    '%s: the program knows "tautline %s"',
    async (_path, line) => {
      await expect(parseOnly(line)).resolves.toBeUndefined();
    },
  );

  it('would be caught with a command or option that is not there', async () => {
    await expect(parseOnly('choose x.yaml --speed 3')).rejects.toThrow(/--speed/);
    await expect(parseOnly('chose x.yaml')).rejects.toThrow(/chose/);
    await expect(parseOnly('explain adc --board uno')).rejects.toThrow(/uno/);
  });

  it.each(commandsIn(README).filter((line) => /^(new|explain) [^<[]*$/.test(line)))(
    'runs: tautline %s',
    async (line) => {
      const ended = await runCli(line.split(/\s+/), { cwd: folder });
      expect(ended.stderr).toBe('');
      expect(ended.code).toBe(0);
      expect(ended.stdout.length).toBeGreaterThan(20);
    },
  );

  it('names every command and every option', () => {
    const [, commands = ''] = README.split(/^## Commands$/m);
    const section = commands.split(/^## /m)[0];
    for (const command of createProgram().commands) {
      expect(section).toContain(`\`tautline ${command.name()} `);
      for (const { long } of command.options) expect(section).toMatch(new RegExp(`\`${long}[ \`]`));
    }
  });

  it('tells the exit codes that the program has', async () => {
    expect(README).toMatch(/Exit code 0: done.*1: the answer is no.*2: wrong input.*70: .*130: /s);
    expect((await runHere('choose', 'not-there.yaml')).code).toBe(2);
    expect((await runHere('explain', 'scores')).code).toBe(0);
  });

  it.skipIf(!LONG)('shows the answer on the example as it is', { timeout: 600_000 }, async () => {
    const ended = await runCli(['choose', 'examples/puppet-right.yaml']);
    expect(ended.code).toBe(0);
    const shown = [...README.matchAll(/^```text\n([\s\S]*?)^```/gm)].map(([, body]) => body.trimEnd());
    expect(shown).toHaveLength(1);
    const flow = (text: string) => text.replace(/\s+/g, ' ');
    expect(flow(ended.stdout)).toContain(flow(shown[0]));
  });
});

describe.each(DOCUMENTS)('%s', (path) => {
  const text = textOf(path);

  it('links to files that are there', () => {
    const links = [...text.matchAll(/\]\(([^)#\s]+)(#[^)]*)?\)/g)]
      .map(([, target]) => target)
      .filter((target) => !/^[a-z]+:/.test(target));
    expect(links.filter((target) => !existsSync(join(ROOT, dirname(path), target)))).toEqual([]);
  });

  it('names npm scripts that exist', () => {
    const named = [...text.matchAll(/\bnpm (?:run )?([a-z:-]+)/g)]
      .map(([, name]) => name)
      .filter((name) => !['ci', 'install', 'run', 'scripts', 'pack', 'publish'].includes(name));
    expect(named.filter((name) => scripts[name] === undefined)).toEqual([]);
  });
});

describe('the package', () => {
  it('has a file for every npm script of its own', () => {
    const missing = Object.values(scripts)
      .map((line) => /^node (\S+)/.exec(line)?.[1])
      .filter((file) => file !== undefined && !existsSync(join(ROOT, file)));
    expect(missing).toEqual([]);
  });
});
