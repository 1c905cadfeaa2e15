import type { Rig } from '../../sim/rig/rig.ts';
import type { Change, ChangeableValue } from '../../sim/sizing/change.ts';
import type { FileValue } from '../rig/put-values.ts';
import { type Dimension, formatQuantity } from '../rig/units.ts';
import { isWritten, type YamlPath, type YamlSource } from '../rig/yaml-source.ts';

/** Where a changeable value stands in a finger's block, and in what it is measured. */
const FIELDS: Record<ChangeableValue, { path: YamlPath; dimension: Dimension; words: string }> = {
  spoolRadius: { path: ['spool', 'radius'], dimension: 'length', words: 'spool radius' },
  springOpenTorque: {
    path: ['spring', 'openTorque'],
    dimension: 'torque',
    words: 'spring torque with the finger open',
  },
  springPerTurn: {
    path: ['spring', 'perTurn'],
    dimension: 'torquePerTurn',
    words: 'spring torque added a turn',
  },
  potentiometerDrag: {
    path: ['potentiometer', 'drag'],
    dimension: 'torque',
    words: 'torque to turn the potentiometer',
  },
  topResistor: { path: ['wiring', 'top'], dimension: 'resistance', words: 'top resistor' },
  bottomResistor: { path: ['wiring', 'bottom'], dimension: 'resistance', words: 'bottom resistor' },
  pullDown: { path: ['wiring', 'pullDown'], dimension: 'resistance', words: 'pull-down resistor' },
  capacitor: { path: ['wiring', 'capacitor'], dimension: 'capacitance', words: 'capacitor at the pin' },
  pin: { path: ['pin'], dimension: 'plain', words: 'pin' },
};

/** A change as people read it. */
export function changeWords({ value, from, to }: Change): { what: string; from: string; to: string } {
  const { words, dimension } = FIELDS[value];
  const text = (number: number) => {
    if (value === 'pin') return `GPIO${number}`;
    return number === 0 && (dimension === 'resistance' || dimension === 'capacitance')
      ? 'none'
      : formatQuantity(Number(number.toPrecision(4)), dimension);
  };
  return { what: words, from: text(from), to: text(to) };
}

/**
 * The values that changes come to in a rig file. One for all fingers goes where the file already speaks of all of
 * them, if no finger has a word of its own there; others go to their fingers.
 */
export function changeValues(source: YamlSource, changes: readonly Change[], rig: Rig): FileValue[] {
  return changes.flatMap((change) => {
    const names = change.fingers;
    const { path, text } = entryOf(change, rig);
    const own = names.map((name): YamlPath => ['fingers', name, ...path]);
    const common: YamlPath = ['eachFinger', ...path];
    const isForAll =
      change.value !== 'pin' &&
      names.length === rig.fingers.length &&
      names.length > 1 &&
      !own.some((one) => isWritten(source, one));
    return (isForAll ? [common] : own).map((one) => ({ path: one, text }));
  });
}

/** Key and text of a change. A spring that is told by its strip is told its preload in turns. */
function entryOf({ value, fingers, to }: Change, rig: Rig): { path: YamlPath; text: string } {
  const { spring } = rig.fingers.find(({ name }) => name === fingers[0])!;
  if (value === 'springOpenTorque' && spring.strip) {
    const turns = Number((to / spring.perTurnMNm).toFixed(1));
    return { path: ['spring', 'preload'], text: formatQuantity(turns, 'turns') };
  }
  const { path, dimension } = FIELDS[value];
  return { path, text: formatQuantity(to, dimension) };
}
