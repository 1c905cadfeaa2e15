import { coordinate, element, label, line } from '../svg.ts';

/**
 * Draws to one side of a block: distances d count from the block's edge outwards, so that the same circuit can stand
 * on either side. Symbols after IEC 60617: rectangles for resistors.
 */
export class Pen {
  private readonly parts: string[] = [];

  /**
   * @param edgeX of the block, user units
   * @param side 1 = to the right of it, -1 = to the left
   */
  constructor(
    private readonly edgeX: number,
    private readonly side: 1 | -1,
  ) {}

  get svg(): string[] {
    return this.parts;
  }

  private x(d: number): number {
    return this.edgeX + this.side * d;
  }

  /** Connected corners, [d, y] each. */
  wire(...corners: [number, number][]): void {
    const path = corners.map(
      ([d, y], i) => `${i === 0 ? 'M' : 'L'}${coordinate(this.x(d))} ${coordinate(y)}`,
    );
    this.parts.push(element('path', { d: path.join(''), class: 'wire' }));
  }

  node(d: number, y: number): void {
    this.parts.push(element('circle', { cx: this.x(d), cy: y, r: 2.6, class: 'node' }));
  }

  /** Text that starts at d and runs outwards. */
  text(d: number, y: number, content: string, kind?: string): void {
    const anchor = this.side === 1 ? 'start' : 'end';
    this.parts.push(label(this.x(d), y, content, kind === undefined ? { anchor } : { anchor, class: kind }));
  }

  /** Text that ends at d, running towards it from the block's inside. */
  inside(d: number, y: number, content: string, kind?: string): void {
    const anchor = this.side === 1 ? 'end' : 'start';
    this.parts.push(label(this.x(d), y, content, kind === undefined ? { anchor } : { anchor, class: kind }));
  }

  middle(d: number, y: number, content: string, kind?: string): void {
    this.parts.push(
      label(
        this.x(d),
        y,
        content,
        kind === undefined ? { anchor: 'middle' } : { anchor: 'middle', class: kind },
      ),
    );
  }

  /** A box between two distances. */
  box(d: number, y: number, width: number, height: number, kind = 'part'): void {
    const x = Math.min(this.x(d), this.x(d + width));
    this.parts.push(element('rect', { x, y, width, height, class: kind }));
  }

  /** Upright resistor with its value beside it; a wire at 0 ohm. */
  resistor(d: number, top: number, bottom: number, value: string | undefined): void {
    if (value === undefined) {
      this.wire([d, top], [d, bottom]);
      return;
    }
    const inset = Math.max(0, (bottom - top - RESISTOR) / 2);
    this.wire([d, top], [d, top + inset]);
    this.box(d - 6, top + inset, 12, bottom - top - 2 * inset);
    this.wire([d, bottom - inset], [d, bottom]);
    this.text(d + 12, (top + bottom) / 2 + 4, value);
  }

  /** Upright capacitor with its value beside it. */
  capacitor(d: number, top: number, bottom: number, value: string): void {
    const y = (top + bottom) / 2;
    this.wire([d, top], [d, y - 3]);
    this.plate(d, y - 3, 9);
    this.plate(d, y + 3, 9);
    this.wire([d, y + 3], [d, bottom]);
    this.text(d + 14, y + 4, value);
  }

  /** The cell: long plate plus, short plate minus. */
  cell(d: number, top: number, bottom: number): void {
    const y = (top + bottom) / 2;
    this.wire([d, top], [d, y - 3]);
    this.plate(d, y - 3, 10);
    this.plate(d, y + 3, 5);
    this.wire([d, y + 3], [d, bottom]);
  }

  ground(d: number, y: number): void {
    this.plate(d, y, 9);
    this.plate(d, y + 4, 5.5);
    this.plate(d, y + 8, 2);
  }

  /** Name of a supply over a bar. */
  supply(d: number, y: number, name: string): void {
    this.plate(d, y, 8);
    this.middle(d, y - 5, name, 'tick');
  }

  private plate(d: number, y: number, half: number): void {
    this.parts.push(line(this.x(d) - half, y, this.x(d) + half, y, 'wire'));
  }

  /** Arrow head that touches d from the side of the block. */
  arrow(d: number, y: number): void {
    const back = this.x(d - 7);
    const path = `M${coordinate(this.x(d))} ${coordinate(y)}L${coordinate(back)} ${coordinate(y - 4)}L${coordinate(back)} ${coordinate(y + 4)}Z`;
    this.parts.push(element('path', { d: path, class: 'node' }));
  }

  /** Pin at the block's edge, with its name and a second, smaller word inside the block. */
  pin(y: number, name: string, more?: string): void {
    this.parts.push(element('rect', { x: this.x(0) - 3, y: y - 3, width: 6, height: 6, class: 'pad' }));
    this.inside(-8, y + 4, name, 'strong');
    if (more !== undefined) this.inside(-8, y + 18, more, 'tick');
  }
}

/** Length of a resistor's rectangle. */
const RESISTOR = 30;
