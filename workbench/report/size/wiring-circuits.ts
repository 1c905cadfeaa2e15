import type { Pen } from './schematic.ts';

/** One circuit at a pin, drawn downwards from y. */
export interface Circuit {
  height: number;
  draw: (pen: Pen, y: number) => void;
}

/** How a pin is named: its name, and what else is printed there. */
export interface PinLabel {
  name: string;
  more?: string;
}

/** Values as words; left out where there is a wire, or nothing. */
export interface StringValues {
  finger: string;
  pot: string;
  top: string | undefined;
  bottom: string | undefined;
  pullDown: string | undefined;
  capacitor: string | undefined;
}

const PULL_DOWN_AT = 40;
const CAPACITOR_AT = 122;
const POT_AT = 212;
const LABEL_AFTER = 14;

/** A finger's potentiometer between its two resistors, with capacitor and pull-down at the wiper. */
export function stringCircuit(pin: PinLabel, values: StringValues): Circuit {
  return {
    height: 172,
    draw: (pen, top) => {
      const y = top + 82;
      pen.pin(y, pin.name, pin.more);
      pen.wire([0, y], [POT_AT - 9, y]);
      pen.arrow(POT_AT - 7, y);
      if (values.pullDown !== undefined) {
        pen.node(PULL_DOWN_AT, y);
        pen.resistor(PULL_DOWN_AT, y, y + 48, values.pullDown);
        pen.ground(PULL_DOWN_AT, y + 48);
      }
      if (values.capacitor !== undefined) {
        pen.node(CAPACITOR_AT, y);
        pen.capacitor(CAPACITOR_AT, y, y + 48, values.capacitor);
        pen.ground(CAPACITOR_AT, y + 48);
      }
      pen.supply(POT_AT, top + 16, '3V3');
      pen.resistor(POT_AT, top + 16, y - 22, values.top);
      pen.box(POT_AT - 7, y - 22, 14, 44);
      pen.resistor(POT_AT, y + 22, top + 148, values.bottom);
      pen.ground(POT_AT, top + 148);
      pen.text(POT_AT + LABEL_AFTER, y - 4, values.finger, 'strong');
      pen.text(POT_AT + LABEL_AFTER, y + 12, values.pot);
    },
  };
}

/** Both axes of a joystick between their common resistors. */
export function joystickCircuit(
  x: PinLabel,
  y: PinLabel,
  values: { top: string | undefined; bottom: string | undefined; capacitor: string },
): Circuit {
  const left = 150;
  const at = 182;
  return {
    height: 226,
    draw: (pen, top) => {
      const box = { top: top + 60, bottom: top + 160 };
      for (const [pin, wireY] of [
        [x, top + 78],
        [y, top + 134],
      ] as const) {
        pen.pin(wireY, pin.name, pin.more);
        pen.wire([0, wireY], [left, wireY]);
        pen.node(PULL_DOWN_AT, wireY);
        pen.capacitor(PULL_DOWN_AT, wireY, wireY + 32, values.capacitor);
        pen.ground(PULL_DOWN_AT, wireY + 32);
      }
      pen.supply(at, top + 16, '3V3');
      pen.resistor(at, top + 16, box.top, values.top);
      pen.box(left, box.top, 64, box.bottom - box.top, 'part');
      pen.text(left + 6, top + 82, 'X', 'tick');
      pen.text(left + 6, top + 138, 'Y', 'tick');
      pen.middle(at, top + 74, '+', 'tick');
      pen.middle(at, top + 112, 'joystick', 'strong');
      pen.middle(at, top + 155, '−', 'tick');
      pen.resistor(at, box.bottom, top + 204, values.bottom);
      pen.ground(at, top + 204);
    },
  };
}

/** Two resistors that divide a supply, with a capacitor at the pin. */
export function dividerCircuit(
  pin: PinLabel,
  name: string,
  values: { top: string | undefined; bottom: string | undefined; capacitor: string },
  isCell: boolean,
): Circuit {
  const at = 182;
  const cellAt = 262;
  return {
    height: 156,
    draw: (pen, top) => {
      const y = top + 76;
      const end = top + 132;
      pen.pin(y, pin.name, pin.more);
      pen.wire([0, y], [at, y]);
      pen.node(PULL_DOWN_AT, y);
      pen.capacitor(PULL_DOWN_AT, y, y + 32, values.capacitor);
      pen.ground(PULL_DOWN_AT, y + 32);
      if (isCell) {
        pen.wire([at, top + 16], [cellAt, top + 16]);
        pen.cell(cellAt, top + 16, end);
        pen.ground(cellAt, end);
      } else pen.supply(at, top + 16, '3V3');
      pen.resistor(at, top + 16, y - 8, values.top);
      pen.wire([at, y - 8], [at, y]);
      if (values.bottom !== undefined) {
        pen.node(at, y);
        pen.resistor(at, y + 8, end, values.bottom);
        pen.wire([at, y], [at, y + 8]);
        pen.ground(at, end);
      }
      pen.text(at + LABEL_AFTER, y + 4, name, 'strong');
    },
  };
}

/** A button between its pin and ground. */
export function buttonCircuit(pin: PinLabel, name: string): Circuit {
  return {
    height: 46,
    draw: (pen, top) => {
      const y = top + 20;
      pen.pin(y, pin.name, pin.more);
      pen.wire([0, y], [60, y]);
      pen.node(60, y);
      pen.wire([60, y], [92, y - 12]);
      pen.node(96, y);
      pen.wire([96, y], [130, y], [130, y + 8]);
      pen.ground(130, y + 8);
      pen.text(150, y + 4, name, 'strong');
    },
  };
}

/** A brake's servo: its signal line, and where its power must not come from. */
export function servoCircuit(pin: PinLabel, name: string): Circuit {
  return {
    height: 46,
    draw: (pen, top) => {
      const y = top + 20;
      pen.pin(y, pin.name, pin.more);
      pen.wire([0, y], [40, y]);
      pen.box(40, y - 13, 72, 26);
      pen.middle(76, y + 4, name, 'strong');
      pen.text(122, y - 3, 'supply of its own,', 'tick');
      pen.text(122, y + 12, 'grounds joined', 'tick');
    },
  };
}

/** A pin whose wire goes on under a name. */
export function namedCircuit(pin: PinLabel, name: string): Circuit {
  return {
    height: 36,
    draw: (pen, top) => {
      pen.pin(top + 14, pin.name, pin.more);
      pen.wire([0, top + 14], [28, top + 14]);
      pen.arrow(34, top + 14);
      pen.text(42, top + 18, name);
    },
  };
}

/**
 * A pin that gives or takes the supply.
 * @param capacitor right at a chip's pin; none if left out
 */
export function supplyCircuit(pin: PinLabel, capacitor?: string): Circuit {
  return {
    height: capacitor === undefined ? 42 : 76,
    draw: (pen, top) => {
      const y = top + 24;
      pen.pin(y, pin.name, pin.more);
      pen.wire([0, y], [40, y], [40, top + 18]);
      pen.supply(40, top + 18, '3V3');
      if (capacitor !== undefined) {
        pen.node(40, y);
        pen.capacitor(40, y, y + 32, capacitor);
        pen.ground(40, y + 32);
      }
    },
  };
}

/** A pin on ground. */
export function groundCircuit(pin: PinLabel): Circuit {
  return {
    height: 40,
    draw: (pen, top) => {
      pen.pin(top + 14, pin.name, pin.more);
      pen.wire([0, top + 14], [40, top + 14], [40, top + 22]);
      pen.ground(40, top + 22);
    },
  };
}
