import { createActions } from './board-actions.ts';
import type { BoardDevice, ProgramFacts } from './board-device.ts';
import { type CommandState, receiveCommand } from './commands.ts';
import type { HandRoutines } from './hand-routines.ts';

/** Takes a packet from the console: does the command in it and replies. */
export function onPacket(
  text: unknown,
  commands: CommandState,
  hand: HandRoutines,
  device: BoardDevice,
  facts: ProgramFacts,
): void {
  const after = { restart: false };
  const reply = receiveCommand(
    commands,
    text,
    device.textCrc,
    createActions(hand, device, facts, commands, after),
  );
  hand.reply(reply.command, reply.result, reply.answer, reply.tag);
  if (after.restart) device.reload();
}
