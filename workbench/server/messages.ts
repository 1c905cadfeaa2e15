import { z } from 'zod';
import type { LineStates } from '../serial/link.ts';
import type { PortInfo } from '../serial/list-ports.ts';

/** Text frames between page and server; bytes of the port travel as binary frames. */

/** Longest text that a page may send at once, bytes: a block of a recording or a profile. */
export const MAX_MESSAGE_BYTES = 256 * 1024;

const lines = z.strictObject({ dtr: z.boolean().optional(), rts: z.boolean().optional() });
const baud = z.number().int().min(300).max(4_000_000);
/** A name for something to keep: no folders, no endings, nothing that a shell or a file system could take amiss. */
export const saveName = z.string().regex(/^[a-z0-9][a-z0-9-]{0,59}$/);

export const pageMessage = z.discriminatedUnion('do', [
  z.strictObject({ do: z.literal('ports'), id: z.number() }),
  z.strictObject({
    do: z.literal('open'),
    id: z.number(),
    port: z.string().min(1).max(300),
    baud,
    dtr: z.boolean(),
    rts: z.boolean(),
  }),
  z.strictObject({ do: z.literal('lines'), id: z.number(), lines }),
  z.strictObject({ do: z.literal('baud'), id: z.number(), baud }),
  z.strictObject({ do: z.literal('close'), id: z.number() }),
  z.strictObject({ do: z.literal('list'), id: z.number() }),
  z.strictObject({
    do: z.literal('load'),
    id: z.number(),
    kind: z.enum(['recording', 'profile']),
    name: saveName,
  }),
  z.strictObject({
    do: z.literal('save'),
    id: z.number(),
    kind: z.enum(['recording', 'profile']),
    name: saveName,
    /** Whether to go on behind what the name holds already. */
    append: z.boolean(),
    text: z.string(),
  }),
  z.strictObject({ do: z.literal('write settings'), id: z.number(), settings: z.unknown() }),
]);
export type PageMessage = z.infer<typeof pageMessage>;

/** What went wrong, in the words that a user reads. */
export interface Trouble {
  code: string;
  message: string;
  detail: string;
}

export type ServerMessage =
  | {
      answers: number;
      ok: true;
      ports?: PortInfo[];
      trouble?: string;
      done?: boolean;
      text?: string;
      saves?: Save[];
    }
  | { answers: number; ok: false; trouble: Trouble }
  | { is: 'end'; reason: 'closed' | 'gone' | 'failed'; detail: string };

export interface Save {
  kind: 'recording' | 'profile';
  name: string;
  bytes: number;
}

export type { LineStates };
