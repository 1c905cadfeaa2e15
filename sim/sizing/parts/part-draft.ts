import { PART_CATALOGUE, type Part, type PartId, type PartUnit } from './part-catalogue.ts';

/** One reason to buy something. */
interface Use {
  quantity: number;
  purpose: string;
  from: string;
}

/** Shops sell by these steps; what is cut or printed is rounded up to them. Assumed. */
const STEPS: Record<PartUnit, number> = { piece: 1, m: 0.5, g: 10 };

/** Collects what is needed, one entry for all uses of the same thing. */
export class PartDraft {
  private readonly wanted = new Map<string, { id: PartId; spec: string; uses: Use[] }>();

  /** @param quantity for all hands together, before rounding; 0 adds nothing */
  add(id: PartId, spec: string, quantity: number, purpose: string, from: string): void {
    if (quantity <= 0) return;
    const key = `${id} ${spec}`;
    const entry = this.wanted.get(key) ?? { id, spec, uses: [] };
    this.wanted.set(key, entry);
    const same = entry.uses.find((use) => use.purpose === purpose && use.from === from);
    if (same) same.quantity += quantity;
    else entry.uses.push({ quantity, purpose, from });
  }

  /** In the order of the catalogue, then in that of asking. */
  parts(): Part[] {
    const order = Object.keys(PART_CATALOGUE);
    return [...this.wanted.values()]
      .sort((a, b) => order.indexOf(a.id) - order.indexOf(b.id))
      .map(({ id, spec, uses }) => {
        const { name, unit } = PART_CATALOGUE[id];
        const sum = uses.reduce((total, use) => total + use.quantity, 0);
        const step = STEPS[unit];
        return {
          id,
          name,
          spec,
          // 0.6 m + 0.9 m are three steps of 0.5 m, not four
          quantity: Math.ceil(sum / step - 1e-9) * step,
          unit,
          why: uses
            .map((use) =>
              uses.length > 1 && unit === 'piece' ? `${use.quantity} ${use.purpose}` : use.purpose,
            )
            .join(', '),
          from: [...new Set(uses.map((use) => use.from))].join(', '),
        };
      });
  }
}
