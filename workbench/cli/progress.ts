import cliProgress from 'cli-progress';

/** Shows how far long work is, on stderr, so that stdout stays clean. */
export interface Progress {
  show(stage: string, done: number, total: number): void;
  stop(): void;
}

/** @param quiet true shows nothing */
export function createProgress(quiet: boolean): Progress {
  if (quiet) return { show() {}, stop() {} };
  let bar: cliProgress.SingleBar | undefined;
  let current = '';
  const stop = () => {
    bar?.stop();
    bar = undefined;
  };
  return {
    show(stage, done, total) {
      if (stage !== current) {
        stop();
        current = stage;
        bar = new cliProgress.SingleBar({
          format: `${stage.padEnd(28)} [{bar}] {value}/{total}`,
          barCompleteChar: '=',
          barIncompleteChar: ' ',
          barsize: 30,
          stream: process.stderr,
          noTTYOutput: true,
          notTTYSchedule: 5000,
          clearOnComplete: false,
          linewrap: null,
          // Its own handler would swallow Ctrl-C.
          gracefulExit: false,
        });
        bar.start(total, done);
      } else {
        bar?.update(done);
      }
    },
    stop,
  };
}
