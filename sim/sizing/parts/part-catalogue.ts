/** In what a part is counted. */
export type PartUnit = 'piece' | 'm' | 'g';

/** Every kind of part that a rig may need, by its key in the price file. */
export const PART_CATALOGUE = {
  'board-esp32': { name: 'ESP32 board', unit: 'piece' },
  'board-esp32-s3': { name: 'ESP32-S3 board', unit: 'piece' },
  'board-esp32-c3': { name: 'ESP32-C3 board', unit: 'piece' },
  potentiometer: { name: 'potentiometer', unit: 'piece' },
  longLifePotentiometer: { name: 'long-life potentiometer', unit: 'piece' },
  multiTurnPotentiometer: { name: 'multi-turn potentiometer', unit: 'piece' },
  spring: { name: 'spiral spring', unit: 'piece' },
  resistor: { name: 'resistor', unit: 'piece' },
  preciseResistor: { name: 'precise resistor', unit: 'piece' },
  capacitor: { name: 'capacitor', unit: 'piece' },
  bufferCapacitor: { name: 'buffer capacitor', unit: 'piece' },
  multiplexer: { name: 'analog multiplexer module', unit: 'piece' },
  joystick: { name: 'joystick module', unit: 'piece' },
  button: { name: 'push button', unit: 'piece' },
  serialAdapter: { name: 'USB-serial adapter', unit: 'piece' },
  stripBoard: { name: 'strip board', unit: 'piece' },
  connector: { name: 'plug and socket', unit: 'piece' },
  wire: { name: 'stranded wire', unit: 'm' },
  usbCable: { name: 'USB data cable', unit: 'piece' },
  string: { name: 'braided string', unit: 'm' },
  tube: { name: 'PTFE tube', unit: 'm' },
  quickRelease: { name: 'quick-release clip', unit: 'piece' },
  filament: { name: 'printing filament', unit: 'g' },
  screw: { name: 'screw', unit: 'piece' },
  glove: { name: 'thin glove', unit: 'piece' },
  strap: { name: 'hook-and-loop strap', unit: 'm' },
  cell: { name: 'protected cell', unit: 'piece' },
  cellCharger: { name: 'certified charger', unit: 'piece' },
  cellRegulator: { name: 'regulator for the cell', unit: 'piece' },
  servo: { name: 'micro servo', unit: 'piece' },
  servoSupply: { name: 'supply for the servos', unit: 'piece' },
  slipClutch: { name: 'slip clutch', unit: 'piece' },
  servoSwitch: { name: 'switch for the servos’ supply', unit: 'piece' },
} as const satisfies Record<string, { name: string; unit: PartUnit }>;

export type PartId = keyof typeof PART_CATALOGUE;
export const PART_IDS = Object.keys(PART_CATALOGUE) as PartId[];

/** One thing to buy. */
export interface Part {
  id: PartId;
  name: string;
  /** Value or kind; with `id` it tells two things apart. */
  spec: string;
  /** In the part's unit; > 0. */
  quantity: number;
  unit: PartUnit;
  /** What it is for, with the counts that make up the quantity. */
  why: string;
  /** Fields of the rig file that ask for it. */
  from: string;
}
