/** A longer line is none of ours. */
export const LONGEST_LINE = 8000;

/** One line of a file that is read piece by piece. */
export interface StreamedLine {
  /** Without its end; at most {@link LONGEST_LINE} + 1 characters of it. */
  text: string;
  /** Counted from 1. */
  line: number;
  isEnded: boolean;
}

export interface LineCutter {
  push(text: string): StreamedLine[];
  /** What stands behind the last line end, if anything. */
  end(): StreamedLine[];
  /** The first line that ends in another way than those before; undefined if there is none. */
  mixedAt(): number | undefined;
}

/** Cuts text that comes in pieces into lines; LF, CRLF or CR. Keeps at most one line. */
export function createLineCutter(): LineCutter {
  let rest = '';
  let line = 1;
  let wasReturn = false;
  let firstEnd: 'LF' | 'CR' | 'CRLF' | undefined;
  let mixedAt: number | undefined;

  function ending(kind: 'LF' | 'CR' | 'CRLF', atLine: number): void {
    firstEnd ??= kind;
    if (kind !== firstEnd) mixedAt ??= atLine;
  }

  function keep(part: string): void {
    rest += part;
    if (rest.length <= LONGEST_LINE) return;
    // A file system may leave a tail of zeros after a power cut: it need not be kept to be known.
    rest = rest.replace(/\0+$/, '\0').slice(0, LONGEST_LINE + 1);
  }

  return {
    push(text) {
      const lines: StreamedLine[] = [];
      let from = 0;
      for (let i = 0; i < text.length; i++) {
        const code = text.charCodeAt(i);
        if (code !== 0x0a && code !== 0x0d) {
          if (wasReturn) ending('CR', line - 1);
          wasReturn = false;
          continue;
        }
        if (code === 0x0a && wasReturn) {
          // the second half of a line end that is counted already
          ending('CRLF', line - 1);
          wasReturn = false;
          from = i + 1;
          continue;
        }
        if (code === 0x0a) ending('LF', line);
        else if (wasReturn) ending('CR', line - 1);
        wasReturn = code === 0x0d;
        keep(text.slice(from, i));
        lines.push({ text: rest, line: line++, isEnded: true });
        rest = '';
        from = i + 1;
      }
      keep(text.slice(from));
      return lines;
    },
    end() {
      const last = rest === '' ? [] : [{ text: rest, line, isEnded: false }];
      rest = '';
      return last;
    },
    mixedAt: () => mixedAt,
  };
}
