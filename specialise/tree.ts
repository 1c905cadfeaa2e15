/** What a program is specialised for: a tree of objects that stands for the entry's arguments. */
import type { Literal, Variable } from './expression.ts';

/** A number or truth value that lives in a variable of the program. */
export class Slot {
  readonly variable: Variable;
  readonly initial: number | boolean;
  /** Nothing in the program writes it: its value is known. */
  isFixed = false;
  constructor(hint: string, initial: number | boolean) {
    this.variable = { kind: 'state', hint };
    this.initial = initial;
  }
}

/** A function of the interpreter or an array that is made when the program starts and never replaced. */
export class Native {
  readonly variable: Variable;
  /** Text whose value it is; `#name` stands for the variable of another native of this name. */
  readonly text: string;
  readonly name: string;
  constructor(name: string, text: string) {
    this.variable = { kind: 'fixed', hint: name };
    this.name = name;
    this.text = text;
  }
}

/** Known values, slots and natives; objects and arrays of them. */
export type Tree = Literal | Slot | Native | readonly Tree[] | { readonly [key: string]: Tree };

/** Numbers of a plain object as slots. @param keys those that stay what they are are left out */
export function slotsOf(name: string, numbers: { [key: string]: number | boolean }): { [key: string]: Slot } {
  const slots: { [key: string]: Slot } = {};
  for (const key of Object.keys(numbers)) slots[key] = new Slot(`${name}.${key}`, numbers[key]!);
  return slots;
}
