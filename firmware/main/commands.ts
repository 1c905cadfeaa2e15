/**
 * The board's end of the commands: checks what came, does it once, and has the reply ready. A repeated command gets
 * the first one's reply; a damaged one changes nothing but a count.
 */
import {
  createCommand,
  createNumberViews,
  NO_COMMAND,
  readCommand,
  type TextCrc32,
} from '../../protocol/commands.ts';
import { COUNT_MAX, RESULT_DAMAGED, RESULT_FAILED } from '../../protocol/frame.ts';
import { type BoardActions, perform } from './perform.ts';
import { createReply, type Reply } from './reply.ts';

export interface CommandState {
  /** Text of the last whole command; '' = none yet. */
  last: string;
  /** Its reply. */
  reply: Reply;
  /** Texts with a wrong length or check since the program started; stays at 65534. */
  damaged: number;
  /** Commands that were done or refused by name, without repetitions; stays at 65534. */
  done: number;
}

export function createCommandState(): CommandState {
  return {
    last: '',
    reply: createReply(),
    damaged: 0,
    done: 0,
  };
}

function counted(count: number): number {
  return count < COUNT_MAX ? count + 1 : count;
}

function refuse(state: CommandState): Reply {
  const reply = createReply();
  state.damaged = counted(state.damaged);
  reply.command = NO_COMMAND;
  reply.result = RESULT_DAMAGED;
  reply.answer = state.damaged;
  reply.tag = NO_COMMAND;
  return reply;
}

/**
 * Takes what came in a packet.
 * @param text the packet's `t`, of any type
 * @returns the reply to be sent; the same object is used again
 */
export function receiveCommand(
  state: CommandState,
  text: unknown,
  crcOf: TextCrc32,
  actions: BoardActions,
): Reply {
  // made anew each time: commands are rare, and between them the board holds as little as possible
  const command = createCommand();
  const views = createNumberViews();
  const reply = state.reply;
  if (!readCommand(text, crcOf, command, views)) return refuse(state);
  // same tag and same content: the reply was lost, not the command
  if (text === state.last) return reply;
  state.last = text as string;
  state.done = counted(state.done);
  reply.command = command.code;
  reply.tag = command.tag;
  reply.answer = 0;
  try {
    reply.result = perform(command, actions, views, reply);
  } catch (_error) {
    actions.failed();
    reply.result = RESULT_FAILED;
    reply.answer = 0;
  }
  return reply;
}
