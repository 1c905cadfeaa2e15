import { readFileSync } from 'node:fs';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { runCli, STACK } from './run-cli.ts';
import { runHere } from './run-here.ts';

const COMMANDS: [command: string, options: string[]][] = [
  ['new', ['--hand', '--board', '--name', '--prices', '--json']],
  ['size', ['--hands', '--prices', '--report', '--sheet', '--stl', '--write', '--full', '--json']],
  [
    'choose',
    ['--seed', '--draws', '--threads', '--rest', '--from', '--report', '--write', '--full', '--json'],
  ],
  ['sweep', ['--seed', '--draws', '--threads', '--rest', '--csv', '--json']],
  ['explain', ['--board', '--volts', '--json']],
  ['bundle', ['--out', '--watchdog', '--json']],
  ['diagnose', ['--from', '--json']],
  [
    'workbench',
    ['--port', '--replay', '--simulate', '--seed', '--speed', '--saves', '--listen', '--no-open'],
  ],
  ['record', ['--port', '--out', '--seconds', '--baud', '--json']],
  ['replay', ['--speed', '--json']],
];
const EXAMPLE = 'examples/puppet-right.yaml';

describe('the command line', () => {
  it('lists its commands', async () => {
    const { code, stdout, stderr } = await runHere('--help');
    expect([code, stderr]).toEqual([0, '']);
    const listed = [...stdout.matchAll(/^ {2}([a-z]+) [[<]/gm)].map(([, name]) => name);
    expect(listed).toEqual([
      'new',
      'size',
      'choose',
      'sweep',
      'explain',
      'bundle',
      'ports',
      'flash',
      'load',
      'record',
      'replay',
      'diagnose',
      'workbench',
      'help',
    ]);
  });

  it.each(COMMANDS)('explains %s and each of its options', async (command, options) => {
    const { code, stdout, stderr } = await runHere(command, '--help');
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(new RegExp(`^Usage: tautline ${command} \\[options\\] [[<]`));
    const listed = [...stdout.matchAll(/^ {2}(--[a-z-]+)( <[^>]+>)? +\S.{8}/gm)].map(([, option]) => option);
    expect(listed).toEqual(options);
    // The same text under the other name.
    expect((await runHere('help', command)).stdout).toBe(stdout);
  });

  it('tells the exit codes of choose in its help', async () => {
    expect((await runHere('choose', '--help')).stdout).toMatch(/Exit code: 0 .*, 1 .*, 2 wrong input/);
  });

  it('gives the version of the package', async () => {
    const { version } = JSON.parse(readFileSync('package.json', 'utf8'));
    expect(await runCli(['--version'])).toEqual({ code: 0, stdout: `${version}\n`, stderr: '' });
  });

  it('shows its help when told nothing, as an error', async () => {
    const { code, stdout, stderr } = await runHere();
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/^Usage: tautline/);
  });
});

describe('a wrong command line', () => {
  it.each<[args: string[], told: RegExp, next: RegExp]>([
    [['chose', EXAMPLE], /unknown command 'chose'/, /Did you mean choose\?/],
    [['explian'], /unknown command 'explian'/, /Did you mean explain\?/],
    [['--sede', '3'], /unknown option '--sede'/, /Run "tautline --help"/],
    [['frobnicate'], /unknown command 'frobnicate'/, /Run "tautline --help"/],
    [['choose', EXAMPLE, '--drawz', '30'], /unknown option '--drawz'/, /Did you mean --draws\?/],
    [['choose', EXAMPLE, '--raport', 'r.html'], /unknown option '--raport'/, /Did you mean --report\?/],
    [['sweep', EXAMPLE, '--cvs', '-'], /unknown option '--cvs'/, /Did you mean --csv\?/],
    [['explain', '--bord', 'esp32'], /unknown option '--bord'/, /Did you mean --board\?/],
    [['new', '--side', 'left'], /unknown option '--side'/, /Run "tautline new --help"/],
    [['choose'], /missing required argument 'rig'/, /Run "tautline choose --help"/],
    [['choose', 'a', 'b'], /too many arguments/, /Run "tautline choose --help"/],
    [['choose', EXAMPLE, '--rest'], /'--rest <file.csv>' argument missing/, /Run "tautline choose --help"/],
    [['new', '--hand', 'up'], /'up' is invalid/, /left, right/],
    [['new', '--board', 'uno'], /'uno' is invalid/, /esp32, esp32-s3, esp32-c3/],
  ])('%j is refused with what to do next', async (args, told, next) => {
    const { code, stdout, stderr } = await runHere(...args);
    expect(code).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toMatch(told);
    expect(stderr).toMatch(next);
    expect(stderr).not.toMatch(STACK);
  });

  it.each([
    ['--seed', '-1', /from 0 to 4294967295/],
    ['--seed', '4294967296', /from 0 to 4294967295/],
    ['--seed', '1.5', /whole number/],
    ['--seed', 'NaN', /whole number/],
    ['--draws', '19', /from 20 to 100000/],
    ['--draws', '1e3', /whole number/],
    ['--draws', '', /whole number/],
    ['--threads', '0', /from 1 to 64/],
    ['--threads', '65', /from 1 to 64/],
  ])('choose refuses %s %s', async (option, value, told) => {
    const { code, stdout, stderr } = await runHere('choose', EXAMPLE, option, value);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain(`'${option} <n>' argument '${value}' is invalid`);
    expect(stderr).toMatch(told);
  });

  it('is refused by the program as built, without a stack trace', async () => {
    const { code, stdout, stderr } = await runCli(['chose']);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain('Did you mean choose?');
    expect(stderr).not.toMatch(STACK);
  });
});

describe('a fault of the program', () => {
  const BREAK = 'JSON.stringify=()=>{throw new TypeError("broken on purpose")}';
  const PRELOAD = { NODE_OPTIONS: `--import=data:text/javascript,${encodeURIComponent(BREAK)}` };
  const args = ['explain', 'scores', '--json'];
  afterEach(() => vi.unstubAllEnvs());

  it('is told in a few lines that ask for a report, with an exit code of its own', async () => {
    const { code, stdout, stderr } = await runCli(args, { env: PRELOAD });
    expect([code, stdout]).toEqual([70, '']);
    expect(stderr).toMatch(/TypeError: broken on purpose\n/);
    expect(stderr).toMatch(/Please report it/);
    expect(stderr).toMatch(/TAUTLINE_DEBUG=1/);
    expect(stderr).not.toMatch(STACK);
    expect(stderr.trimEnd().split('\n').length).toBeLessThanOrEqual(4);
  });

  it('shows its stack trace to those who ask for it', async () => {
    const { code, stderr } = await runCli(args, { env: { ...PRELOAD, TAUTLINE_DEBUG: '1' } });
    expect(code).toBe(70);
    expect(stderr).toMatch(STACK);
    expect(stderr).toMatch(/Please report it/);
  });

  it('is told the same way when nothing waits for it any more', async () => {
    const late = 'setTimeout(()=>{throw new RangeError("broken later")},500)';
    const slow = ['sweep', EXAMPLE, '--draws', '500', '--threads', '1'];
    const { code, stdout, stderr } = await runCli(slow, {
      env: { NODE_OPTIONS: `--import=data:text/javascript,${encodeURIComponent(late)}` },
    });
    expect([code, stdout]).toEqual([70, '']);
    expect(stderr).toMatch(/RangeError: broken later\n.*report it/);
    expect(stderr).not.toMatch(STACK);
  });
});
