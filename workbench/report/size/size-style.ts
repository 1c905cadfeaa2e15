/** What the drawings of `size` add to the report's look. */
export const SIZE_STYLE = `
svg .flesh{stroke:var(--edge);stroke-linecap:round;opacity:.75}svg .flesh.is-open{opacity:.35}
svg .joint{fill:var(--sheet);stroke:var(--steel);stroke-width:1.2}svg .joint.is-open{opacity:.5}
svg .string{fill:none;stroke:var(--string);stroke-width:2.2}svg .string.is-open{stroke-dasharray:5 4;stroke-width:1.4}
svg .guide{stroke:var(--copper);stroke-width:2.2;stroke-linecap:round}svg .guide.is-open{opacity:.45}
svg .spool{fill:var(--sheet);stroke:var(--ink);stroke-width:1.6}svg .shaft{fill:var(--steel)}
svg .dead{fill:none;stroke:var(--edge);stroke-width:3}svg .travel{fill:none;stroke:var(--steel);stroke-width:3}
svg .used{fill:none;stroke:var(--string);stroke-width:7;opacity:.85}svg .used.is-tight{stroke:var(--copper)}svg .used.is-bad{stroke:var(--bad)}
svg .stop{stroke:var(--ink);stroke-width:2.4}
svg .range{fill:var(--string-wash);stroke:var(--string);stroke-width:1}
svg .resistor{fill:var(--sheet);stroke:var(--ink);stroke-width:1.4}
svg .span{stroke:var(--ink);stroke-width:1.6}svg .span.is-bad{stroke:var(--bad);stroke-width:2.4}
svg .swing{fill:var(--string);fill-opacity:.55;stroke:var(--string)}
svg .housing{fill:var(--sheet);stroke:var(--steel);stroke-width:1.4}svg .cup{fill:var(--ground);stroke:var(--steel)}
svg .groove{fill:none;stroke:var(--string);stroke-dasharray:4 3}svg .axis-line{stroke:var(--steel);stroke-dasharray:8 3 2 3}
svg .lead{fill:none;stroke:var(--steel);stroke-width:.9}
`.trim();
