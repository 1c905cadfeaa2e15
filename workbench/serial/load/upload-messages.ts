/** What is said between the loader and the process of the upload tools. */
export type ToUpload =
  | { kind: 'received'; bytes: Uint8Array }
  | { kind: 'written'; number: number }
  | { kind: 'evaluate'; number: number; text: string; limitMs: number }
  | { kind: 'sendFile'; number: number; name: string; data: string; packetBytes: number };

export type FromUpload =
  | { kind: 'ready' }
  | { kind: 'write'; number: number; bytes: Uint8Array }
  | { kind: 'progress'; doneBytes: number }
  | { kind: 'done'; number: number; value: string }
  | { kind: 'failed'; number: number; reason: string };
