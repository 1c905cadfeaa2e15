/**
 * Host only. Sends one command after the other: each is repeated, with its tag, until its reply comes or the tries
 * are used up. The board answers a repetition without doing it again.
 */
import { commandPacket } from './command-packet.ts';
import { TAG_MAX } from './commands.ts';
import { type Frame, KIND_REPLY } from './frame.ts';

/** What became of a command. */
export interface CommandOutcome {
  tag: number;
  code: number;
  /** One of the RESULT codes; -1 = no reply after the last try: whether it was done is not known. */
  result: number;
  /** 32-bit answer, 0 if there is none. */
  answer: number;
}

export interface CommandSender {
  /**
   * Sends a command now.
   * @returns its tag
   * @throws Error while another waits for its reply
   */
  send(code: number, subject: number, index: number, value: number, nowS: number): number;
  /** Looks at a frame; other kinds and other tags are ignored. */
  frame(frame: Frame): void;
  /** Call from time to time, at least every `patienceS`: repeats or gives up. */
  tick(nowS: number): void;
  isWaiting(): boolean;
}

/**
 * @param firstTag 0-65534; random, so that a new host's first command is not taken for the last one of the old host
 * @param patienceS time to wait for a reply, s
 * @param tries times that a command is sent at most, >= 1
 */
export function createCommandSender(
  firstTag: number,
  patienceS: number,
  tries: number,
  write: (packet: Uint8Array) => void,
  onOutcome: (outcome: CommandOutcome) => void,
): CommandSender {
  let nextTag = firstTag;
  let packet: Uint8Array | undefined;
  let tag = 0;
  let code = 0;
  let sentS = 0;
  let left = 0;

  function finish(result: number, answer: number): void {
    packet = undefined;
    onOutcome({ tag, code, result, answer });
  }

  return {
    send(newCode, subject, index, value, nowS) {
      if (packet) throw new Error(`command ${tag} still waits for its reply`);
      const bytes = commandPacket({ tag: nextTag, code: newCode, subject, index, value });
      tag = nextTag;
      nextTag = nextTag === TAG_MAX ? 0 : nextTag + 1;
      code = newCode;
      packet = bytes;
      sentS = nowS;
      left = tries - 1;
      write(bytes);
      return tag;
    },
    frame(frame) {
      if (!packet || frame.kind !== KIND_REPLY || frame.values[4] !== tag || frame.values[0] !== code) return;
      finish(frame.values[1], frame.values[2] + 65536 * frame.values[3]);
    },
    tick(nowS) {
      if (!packet || nowS - sentS < patienceS) return;
      if (left <= 0) finish(-1, 0);
      else {
        left--;
        sentS = nowS;
        write(packet);
      }
    },
    isWaiting: () => packet !== undefined,
  };
}
