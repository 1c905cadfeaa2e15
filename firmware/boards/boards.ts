/* Host only. */
import type { BoardId } from './board.ts';
import { esp32 } from './esp32.ts';
import { esp32C3 } from './esp32-c3.ts';
import { esp32S3 } from './esp32-s3.ts';
import type { BoardFacts } from './facts.ts';

const all: { [id in BoardId]: BoardFacts } = { esp32, 'esp32-s3': esp32S3, 'esp32-c3': esp32C3 };

/** What is known of one board. */
export function boardFacts(id: BoardId): BoardFacts {
  return all[id];
}
