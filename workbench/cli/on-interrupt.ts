const SIGNALS = ['SIGINT', 'SIGTERM'] as const;

/**
 * Lets a long piece of work end in order at Ctrl-C. The second Ctrl-C ends the process as it would without this.
 * @returns what to call when the work is done
 */
export function onInterrupt(stop: () => void): () => void {
  const others = SIGNALS.map((signal) => process.listeners(signal));
  for (const signal of SIGNALS) process.removeAllListeners(signal);
  function restore(): void {
    SIGNALS.forEach((signal, i) => {
      process.removeListener(signal, first);
      for (const listener of others[i]!.splice(0)) process.on(signal, listener as () => void);
    });
  }
  function first(): void {
    restore();
    stop();
  }
  for (const signal of SIGNALS) process.on(signal, first);
  return restore;
}
