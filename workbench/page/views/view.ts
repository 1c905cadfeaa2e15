import type { Engine } from '../engine.ts';
import type { ServerConnection } from '../server-connection.ts';

/** What a view is made of. */
export interface View {
  id: string;
  title: string;
  element: HTMLElement;
  /** Called for each picture while the view is shown. */
  paint?(): void;
  shown?(): void;
  hidden?(): void;
}

export interface ViewContext {
  engine: Engine;
  /** undefined where the page runs without a server. */
  server: ServerConnection | undefined;
  /** Says something to the user in the status line. */
  say(text: string): void;
}
