import type { ChooseResult } from '../../sim/study/result.ts';
import { answerSections } from './answer-sections.ts';
import { evidenceSections } from './evidence-sections.ts';
import { groundSections } from './ground-sections.ts';
import { reportPage } from './shell.ts';
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
 * The whole answer of `choose` as one HTML file, see {@link reportPage}.
 * @returns UTF-8 text, below 1.5 MB for 1500 rows
 */
export function chooseReport(result: ChooseResult): string {
  const { rig } = result;
  return reportPage(
    {
      version: result.version,
      title: `Settings for ${rig.name}`,
      command: 'choose',
      under: `${rig.side} hand, ${rig.fingers.join(', ')} · ${rig.board} · ${rig.frameRateHz} frames a second · ${rig.file}`,
      parts: PARTS,
      footer: `Made by tautline ${result.version} in simulation; nothing here was measured on a board unless its source says so.`,
      script: TABLE_SCRIPT,
    },
    [...answerSections(result), ...evidenceSections(result), ...groundSections(result)],
  );
}
