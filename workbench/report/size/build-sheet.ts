import { boardFacts } from '../../../firmware/boards/boards.ts';
import type { Rig } from '../../../sim/rig/rig.ts';
import type { Part } from '../../../sim/sizing/parts/part-catalogue.ts';
import { amountWords } from '../../parts/parts-words.ts';
import { escapeHtml } from '../escape.ts';
import { list, paragraph, section } from '../html.ts';
import { REPORT_STYLE } from '../style.ts';
import { settingsSentences } from '../words.ts';
import { assemblySteps, cautions } from './sheet-steps.ts';
import { SHEET_STYLE } from './sheet-style.ts';
import { dimensionTable, type FingerSheets, wiringTable } from './sheet-tables.ts';

/** All that the build sheet shows. */
export interface BuildSheetInput {
  rig: Rig;
  /** For one hand, as `partsList` gives them. */
  parts: readonly Part[];
  /** Of tautline. */
  version: string;
  /** Rig file, as the user named it. */
  file?: string;
  /** What the parts cost, as one line. */
  cost?: string;
  fingers?: FingerSheets;
  /** What will not work as planned, told at the top; best no more than three lines. */
  warnings?: readonly string[];
}

/**
 * One page to build from: dimensions, wiring, parts, settings, order of assembly, cautions. One HTML file that needs
 * nothing else; printed, one page of A4.
 */
export function buildSheetHtml(input: BuildSheetInput): string {
  const { rig, version, warnings = [] } = input;
  const name = escapeHtml(rig.name);
  const under = [
    `${rig.hand.side} hand, ${rig.hand.scale} × the mean size`,
    boardFacts(rig.board).label,
    `${rig.frameRateHz} frames a second`,
    ...(input.file === undefined ? [] : [input.file]),
  ].join(' · ');
  const notice =
    warnings.length === 0
      ? ''
      : `<div class="notice" role="note"><strong>Not yet right</strong>${list([...warnings])}</div>`;
  const body = `<div class="rule"></div>
<header>
<p class="over">tautline size: build sheet</p>
<h1>${name}</h1>
<p class="under">${escapeHtml(under)}</p>
</header>
<main>
${notice}
${section('dimensions', 'Dimensions', dimensionTable(rig, input.fingers ?? {}))}
${section('wiring', 'Wiring', wiringTable(rig))}
${section('parts', 'Parts for one hand', partsChecklist(input.parts), paragraph(costWords(input), 'small'))}
<div class="two">
${section('order', 'Order of assembly', numbered(assemblySteps(rig)))}
${section('settings', 'Settings', settingsList(rig))}
${section('cautions', 'Take care', cautionList(rig))}
</div>
</main>
<footer>Made by tautline ${escapeHtml(version)} from the rig file; values that the file leaves out are defaults.</footer>`;
  const printPt = printSizePt(body);
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="tautline ${escapeHtml(version)}">
<title>Build sheet for ${name}</title>
<style>${REPORT_STYLE}
${SHEET_STYLE}</style>
</head>
<body class="sheet${printPt < THREE_COLUMNS_PT ? ' long' : ''}" style="--print-size:${printPt.toFixed(2)}pt">
${body}
</body>
</html>
`;
}

/**
 * Size of type, pt, at which this much text fills a page of A4 to about nine tenths: the area that a text needs goes
 * with the square of its size. The constant comes from printing rigs from one finger to one with everything; a page
 * that is just full has 700 to 730.
 */
function printSizePt(body: string): number {
  const characters = body.replace(/<[^>]*>/g, '').length;
  const rows = body.match(/<(tr|li|dt)\b/g)?.length ?? 0;
  return Math.min(LARGEST_PT, 650 / Math.sqrt(characters + 40 * rows));
}

const LARGEST_PT = 8.6;
/** Below this size the parts stand in three columns. */
const THREE_COLUMNS_PT = 7.4;

/** One box to tick for each kind of part; what comes in several values is listed behind it. */
function partsChecklist(parts: readonly Part[]): string {
  const kinds = new Map<string, Part[]>();
  for (const part of parts) kinds.set(part.id, [...(kinds.get(part.id) ?? []), part]);
  const items = [...kinds.values()].map((values) => {
    const [first] = values;
    if (values.length === 1) {
      return `<li><b>${escapeHtml(amountWords(first!))}</b> ${escapeHtml(`${first!.name}, ${first!.spec}`)}</li>`;
    }
    const words = values.map(
      (part) => `<span><b>${escapeHtml(amountWords(part))}</b> × ${escapeHtml(part.spec)}</span>`,
    );
    return `<li>${escapeHtml(first!.name)}: ${words.join('; ')}</li>`;
  });
  return `<ul class="parts-list">${items.join('\n')}</ul>`;
}

function costWords({ cost }: BuildSheetInput): string {
  const rest = 'Spares are counted in; tools, solder, glue and heat-shrink tube are not.';
  return cost === undefined ? rest : `${cost} ${rest}`;
}

function numbered(steps: readonly string[]): string {
  return `<ol>${steps.map((step) => `<li>${escapeHtml(step)}</li>`).join('\n')}</ol>`;
}

function settingsList({ settings }: Rig): string {
  if (!settings) return paragraph('None chosen yet: “tautline choose” proposes them.');
  return list(settingsSentences(settings));
}

function cautionList(rig: Rig): string {
  const rows = cautions(rig).map(
    ([what, advice]) => `<dt>${escapeHtml(what)}</dt><dd>${escapeHtml(advice)}</dd>`,
  );
  return `<dl>${rows.join('\n')}</dl>`;
}
