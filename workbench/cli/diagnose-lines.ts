import { FAULT_WORDS } from '../diagnose/fault-words.ts';
import type { Diagnosis, Finding } from '../diagnose/finding.ts';
import { wrapWords } from '../report/wrap.ts';

/** The diagnosis as lines for the terminal. */
export function diagnosisLines(diagnosis: Diagnosis, columns: number): string[] {
  const lines: string[] = [];
  const say = (text: string, indent: string) =>
    lines.push(...wrapWords(text, columns - indent.length).map((line) => indent + line));
  const { findings, unjudged } = diagnosis;
  if (findings.length === 0) {
    say(
      unjudged.length === 0
        ? 'No fault found: everything that was looked for stays within the rig’s tolerances.'
        : 'No fault found in what could be judged.',
      '',
    );
  } else
    say(
      findings.length === 1 ? 'One fault found.' : `${findings.length} faults found, the most certain first.`,
      '',
    );
  findings.forEach((finding, i) => {
    lines.push('');
    say(heading(finding, i + 1), '');
    for (const sentence of finding.evidence) say(sentence, '   ');
    if (finding.rulesOut.length > 0) say(`Not: ${finding.rulesOut.join(' ')}`, '   ');
    if (finding.orElse.length > 0) {
      say(`It may as well be: ${finding.orElse.map((kind) => FAULT_WORDS[kind]).join(', ')}.`, '   ');
    }
    finding.cure.forEach((sentence, step) => {
      say(`${step === 0 ? 'Cure: ' : ''}${sentence}`, '   ');
    });
  });
  if (unjudged.length > 0) {
    lines.push('', 'Not judged');
    for (const { what, next } of unjudged) say(`${what} ${next}`, '   ');
  }
  return lines;
}

function heading(finding: Finding, number: number): string {
  const who = finding.fingers.length > 4 ? 'all fingers' : finding.fingers.join(', ');
  return `${number}. ${who}: ${FAULT_WORDS[finding.fault]} (${(100 * finding.confidence).toFixed(0)} % sure)`;
}
