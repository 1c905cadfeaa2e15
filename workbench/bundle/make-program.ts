/** The board's program for one plan: the frame, specialised; the seldom run rest; what ties them to the interpreter. */
import type { BoardPlan } from '../../firmware/main/board-plan.ts';
import { layoutOf } from '../../firmware/main/layout.ts';
import { shiftLiterals } from '../../specialise/literal-pass.ts';
import { SpecialiseError } from '../../specialise/problem.ts';
import type { PrintedRoutine } from '../../specialise/specialise.ts';
import { specialise } from '../../specialise/specialise.ts';
import { subsetProblems } from '../../specialise/subset.ts';
import { readBoardSource } from './board-source.ts';
import { deviceText, factsText, setUpText } from './glue.ts';
import { CONSOLE, nativesOf } from './natives.ts';
import { programTree } from './program-tree.ts';
import { KEPT, KEPT_WITH_ROUTINES, ROUTINES } from './routine-names.ts';
import { seldom } from './seldom.ts';

export interface MapEntry {
  /** Offsets in the program. */
  start: number;
  end: number;
  /** Function of the source that the text comes from. */
  stage: string;
  file: string;
  line: number;
}

export interface BoardText {
  text: string;
  map: MapEntry[];
  routines: { name: string; bytes: number }[];
  /** Names in the program's own scope. */
  variables: number;
  /** Name of the function that the frame timer calls. */
  tickName: string;
  /** Name in the program of each number that it remembers, e.g. `finger0.level`. */
  slots: { [hint: string]: string };
}

/** Fixed names of the seldom used things; the specialiser gives out none that begin with `$`. */
export const COMMANDS = '$c';
export const TIMER = '$t';
export const PACKET = '$q';

/**
 * Makes the program of a plan.
 * @throws SpecialiseError for a source that cannot be specialised (a fault of the program, not of its user)
 */
export async function makeProgram(plan: BoardPlan): Promise<BoardText> {
  const { source, placeOf } = readBoardSource();
  const layout = layoutOf(plan);
  const device = plan.frameUart === 'console' ? CONSOLE : 'Serial2';
  const natives = nativesOf(plan, layout, device);
  const tree = programTree(plan, layout, natives.io);
  const requests = [
    { name: 'tick', known: [tree], isHot: true },
    ...ROUTINES.map((name) => ({ name, known: [tree], isHot: false })),
  ];
  const made = specialise(source, requests, KEPT, natives.all);
  const text = (routine: PrintedRoutine) => routine.pieces.map((piece) => piece.text).join('');
  const isRoutine = (routine: PrintedRoutine) => ROUTINES.includes(routine.name);
  const isSeldom = (routine: PrintedRoutine) =>
    isRoutine(routine) || KEPT_WITH_ROUTINES.includes(routine.name);
  const inside = made.routines.filter(isRoutine);
  const shared = made.routines.filter((r) => KEPT_WITH_ROUTINES.includes(r.name));
  const tick = made.routines.find((r) => r.name === 'tick')!;

  const hand = `{${inside.map((r) => `${r.name}:${r.shortName}`).join(',')}}`;
  const helpers = [...shared, ...inside].map(text).join('\n');
  const devices = deviceText(plan, tick.shortName, TIMER);
  const rest = await seldom(
    source,
    `function ${PACKET}(packet)`,
    `${helpers}\nvar hand=${hand},device=${devices},facts=${factsText(plan)};
if(packet){onPacket(packet.t,${COMMANDS},hand,device,facts)}else{${COMMANDS}=createCommandState();startUp(hand,device,facts)}`,
    [COMMANDS, TIMER, PACKET, ...made.names],
  );

  const out = createWriter();
  out.write(`${made.declarations}var ${COMMANDS},${TIMER};`);
  out.write(setUpText(plan));
  out.write(made.initialisers);
  for (const routine of made.routines) {
    if (isSeldom(routine)) continue;
    out.begin(routine.name);
    for (const piece of routine.pieces) {
      const start = out.length();
      out.write(piece.text);
      if (piece.origin) {
        out.entries.push({
          start,
          end: out.length(),
          stage: stageName(piece.origin.stage),
          ...placeOf(piece.origin.offset),
        });
      }
    }
    out.write('\n');
  }
  out.begin('commands and start');
  out.write(`${shiftLiterals(rest)}\n${PACKET}();E.on("packet",${PACKET});\n`);
  refuseMisread(out.text(), out.entries);
  return {
    text: out.text(),
    map: out.entries,
    routines: out.parts(),
    variables: made.names.length + 3,
    tickName: tick.shortName,
    slots: made.slots,
  };
}

/** Stops a program that the interpreter would misread, and names the line of the source that it comes from. */
function refuseMisread(text: string, map: readonly MapEntry[]): void {
  const [first] = subsetProblems(text);
  if (!first) return;
  const { offset, seen, expected } = first;
  const from = map.find((entry) => entry.start <= offset && offset < entry.end);
  const place = from ? `${from.file}:${from.line} (${from.stage})` : `offset ${offset} of the program`;
  throw new SpecialiseError(`${seen}, from ${place}`, expected, offset);
}

/** The bundler puts a number behind names that two modules share. */
function stageName(name: string): string {
  return name.replace(/\$\d+$/, '');
}

function createWriter() {
  let all = '';
  const starts: { name: string; start: number }[] = [{ name: 'declarations', start: 0 }];
  return {
    entries: [] as MapEntry[],
    write(text: string) {
      all += text;
    },
    length: () => all.length,
    begin(name: string) {
      starts.push({ name, start: all.length });
    },
    text: () => all,
    parts: () =>
      starts.map(({ name, start }, i) => ({ name, bytes: (starts[i + 1]?.start ?? all.length) - start })),
  };
}
