import type { Program } from './program.ts';

/** Takes all readings of a frame. */
export function acquire(p: Program): void {
  const build = p.build;
  for (let i = 0; i < build.channels.length; i++) {
    p.io.select(build.channels[i]);
    p.io.acquireChannel[i]();
  }
  if (build.channels.length === 0 || build.axes.length > 0 || build.railNominal > 0) p.io.acquire();
}
