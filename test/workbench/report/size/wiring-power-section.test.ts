import { describe, expect, it } from 'vitest';
import { defaultRig } from '../../../../sim/rig/default-rig.ts';
import { sizePower } from '../../../../sim/sizing/power/power-size.ts';
import { sizeWiring } from '../../../../sim/sizing/wiring/wiring-size.ts';
import { powerSection } from '../../../../workbench/report/size/power-section.ts';
import { wiringSection } from '../../../../workbench/report/size/wiring-section.ts';

/** Tags that are not closed, or closed without having been opened. */
function unbalanced(html: string): string[] {
  const open: string[] = [];
  for (const [, slash, name] of html.matchAll(/<(\/?)([a-z0-9]+)[^>]*>/g)) {
    if (slash === '') open.push(name!);
    else if (open.pop() !== name) return [`</${name}>`];
  }
  return open;
}

describe('report sections', () => {
  const sections = () => [
    wiringSection(sizeWiring(defaultRig(), [0.9, 1.1])),
    powerSection(sizePower(defaultRig())),
  ];

  it('are whole sections of their own, without script, style or anything from outside', () => {
    for (const html of sections()) {
      expect(html).toMatch(/^<section id="(wiring|power)"[\s\S]*<\/section>$/);
      expect(unbalanced(html)).toEqual([]);
      expect(html).not.toMatch(/<script|<style|https?:|src=|NaN|undefined|Infinity|null/);
    }
  });

  it('have tables that stack on phones: every cell beyond the first knows its column', () => {
    for (const html of sections()) {
      const tables = html.match(/<table[^>]*>/g)!;
      expect(tables.every((tag) => tag.includes('class="stack"'))).toBe(true);
      for (const cell of html.match(/<td[^>]*>/g)!) expect(cell).toMatch(/data-name="[^"]+"/);
    }
  });

  it('carry the figures and the cautions', () => {
    const [wiring, power] = sections();
    // 2.2589 V at the highest corner on 3.3 V, times 1.03
    expect(wiring).toMatch(/0\.1597-2\.3267 V/);
    expect(power).toMatch(/certified charger/);
    expect(power).toMatch(/Local rules and qualified people come first/);
  });
});
