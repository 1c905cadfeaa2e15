import type { RecordedItem } from './recording-format.ts';

/** One item of a recording after the other, with a look ahead. */
export interface ItemReader {
  /** The next item; undefined at the end. */
  peek(): Promise<RecordedItem | undefined>;
  take(): void;
  close(): Promise<void>;
}

export function createItemReader(blocks: AsyncGenerator<RecordedItem[]>): ItemReader {
  let block: RecordedItem[] = [];
  let at = 0;
  let isOver = false;
  return {
    async peek() {
      while (at >= block.length && !isOver) {
        const next = await blocks.next();
        if (next.done) isOver = true;
        else block = next.value;
        at = 0;
      }
      return isOver ? undefined : block[at];
    },
    take() {
      at++;
    },
    async close() {
      isOver = true;
      await blocks.return(undefined);
    },
  };
}

export function hostTimeOf(item: RecordedItem): number {
  return 'frame' in item ? item.frame.hostS : item.event.hostS;
}
