import { createHash } from 'node:crypto';
import type { ChooseResult } from '../../sim/study/result.ts';
import { answerSections } from './answer-sections.ts';
import { escapeHtml } from './escape.ts';
import { evidenceSections } from './evidence-sections.ts';
import { groundSections } from './ground-sections.ts';
import { REPORT_STYLE } from './style.ts';
import { TABLE_SCRIPT } from './table-script.ts';

const PARTS: [string, string][] = [
  ['verdict', 'Verdict'],
  ['settings', 'Settings'],
  ['runners-up', 'Runners-up'],
  ['trade-off', 'Trade-off'],
  ['grasp', 'Hardest grasp'],
  ['rest', 'At rest'],
  ['lag', 'Lag'],
  ['what-if', 'What if'],
  ['table', 'All settings'],
  ['assumptions', 'Assumptions'],
  ['repeat', 'Repeat'],
];

/**
 * The whole answer of `choose` as one HTML file that needs nothing else: no network, no other file.
 * Its content policy allows the page's own style and its one script (by hash), and nothing more.
 * @returns UTF-8 text, below 1.5 MB for 1500 rows
 */
export function chooseReport(result: ChooseResult): string {
  const { rig } = result;
  const name = escapeHtml(rig.name);
  const scriptHash = createHash('sha256').update(TABLE_SCRIPT).digest('base64');
  const policy = `default-src 'none'; style-src 'unsafe-inline'; script-src 'sha256-${scriptHash}'; base-uri 'none'; form-action 'none'`;
  const links = PARTS.map(([id, words]) => `<a href="#${id}">${words}</a>`).join('\n');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="tautline ${escapeHtml(result.version)}">
<title>Settings for ${name}</title>
<style>${REPORT_STYLE}</style>
</head>
<body>
<div class="rule"></div>
<header>
<p class="over">tautline choose</p>
<h1>Settings for ${name}</h1>
<p class="under">${escapeHtml(`${rig.side} hand, ${rig.fingers.join(', ')} · ${rig.board} · ${rig.frameRateHz} frames a second · ${rig.file}`)}</p>
<nav aria-label="Parts of this report">${links}</nav>
</header>
<main>
${[...answerSections(result), ...evidenceSections(result), ...groundSections(result)].join('\n')}
</main>
<footer>Made by tautline ${escapeHtml(result.version)} in simulation; nothing here was measured on a board unless its source says so.</footer>
<script>${TABLE_SCRIPT}</script>
</body>
</html>
`;
}
