/** What the wiring diagram of `size` adds to the report's look. */
export const WIRING_STYLE = `
svg .wire{fill:none;stroke:var(--ink);stroke-width:1.3;stroke-linejoin:round;stroke-linecap:round}
svg .part{fill:var(--sheet);stroke:var(--ink);stroke-width:1.5}
svg .block{fill:var(--string-wash);stroke:var(--string);stroke-width:1.6}
svg .node{fill:var(--ink)}svg .pad{fill:var(--string)}
@media print{svg.wiring{max-height:235mm}}
`.trim();
