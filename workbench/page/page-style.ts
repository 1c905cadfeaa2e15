import { PARTS_STYLE } from '../report/size/parts-style.ts';
import { SIZE_STYLE } from '../report/size/size-style.ts';
import { WIRING_STYLE } from '../report/size/wiring-style.ts';
import { REPORT_STYLE } from '../report/style.ts';

/** The workbench's look: that of the reports, with what a live page needs. */
export const PAGE_STYLE = `${REPORT_STYLE}${SIZE_STYLE}${PARTS_STYLE}${WIRING_STYLE}
[hidden]{display:none!important}
#app>main,.top,.tabs,.status{max-width:1560px;margin-left:auto;margin-right:auto;padding-left:24px;padding-right:24px}
.top{display:flex;flex-wrap:wrap;gap:8px 32px;justify-content:space-between;align-items:flex-end;padding-top:16px}
.top h1{margin:.05em 0 .1em;font-size:1.4rem}.top p{margin:0}
.link{text-align:right}.link .row{justify-content:flex-end}
.soft{color:var(--soft)}
.state{display:inline-block;border:1px solid var(--steel);border-radius:3px;padding:1px 9px;font-weight:600;min-width:13em;text-align:center}
.state[data-state=streaming]{border-color:var(--string);color:var(--string);background:var(--string-wash)}
.state[data-state=silent],.state[data-state=looking]{border-color:var(--copper);color:var(--copper)}
.tabs{display:flex;flex-wrap:wrap;gap:0 4px;border-bottom:1px solid var(--edge);margin-top:12px}
.tabs a{padding:8px 14px;text-decoration:none;color:var(--ink);border:1px solid transparent;border-bottom:0;border-radius:3px 3px 0 0;position:relative;top:1px}
.tabs a[aria-current]{background:var(--sheet);border-color:var(--edge);font-weight:650;box-shadow:inset 0 3px 0 var(--string)}
.status{min-height:2.1em;padding-top:6px;margin-top:0;margin-bottom:0;color:var(--copper);max-width:none}
button,select,input{font:inherit;color:inherit;background:var(--sheet);border:1px solid var(--steel);border-radius:3px;padding:4px 11px}
button{cursor:pointer}button:hover{border-color:var(--string)}button:disabled{opacity:.55;cursor:default}
button.main{background:var(--string);border-color:var(--string);color:var(--sheet);font-weight:650;padding:7px 18px}
button.small,button.try{padding:1px 9px;font-size:.88rem}button.is-on{border-color:var(--bad);color:var(--bad);font-weight:650}
button:focus-visible,select:focus-visible,input:focus-visible,.tabs a:focus-visible,summary:focus-visible{outline:3px solid var(--copper);outline-offset:2px}
.row{display:flex;flex-wrap:wrap;gap:8px;align-items:center;margin:8px 0}
.live{display:grid;grid-template-columns:minmax(0,1fr) 360px;gap:18px;padding-top:6px}
.strips{display:grid;gap:10px;align-content:start}
.finger{margin:0;padding:8px 12px 4px}
.finger-head{display:flex;justify-content:space-between;align-items:baseline}.finger h3{margin:0;font-size:1rem}
.value{font-variant-numeric:tabular-nums;font-weight:650;min-width:6em;text-align:right}
.bar{height:8px;background:var(--grid);border-radius:2px;overflow:hidden;margin:2px 0 4px}
.bar-fill{height:100%;background:var(--string);transform-origin:left;transform:scaleX(0)}
.bar-fill.is-invalid{background:repeating-linear-gradient(45deg,var(--bad) 0 4px,transparent 4px 8px);transform:none!important}
.strip{height:112px}
.side{display:grid;gap:12px;align-content:start}
.side .panel,.side .health{margin:0}.panel{background:var(--sheet);border:1px solid var(--edge);border-radius:3px;padding:12px 16px}
.panel h3{margin:0 0 .3em}
.health{background:var(--sheet);border:1px solid var(--edge)}.health caption{text-align:left;font-weight:650;padding:8px 16px;background:var(--sheet);border:1px solid var(--edge);border-bottom:0}
.health th{padding-left:16px;font-weight:400;color:var(--soft)}.health td{padding-right:16px;min-width:7em}
.events{margin:0;padding-left:1.1em;font-size:.92rem;min-height:3em;max-height:14em;overflow:auto}.when{color:var(--soft);font-variant-numeric:tabular-nums}
.column{max-width:980px;padding-top:6px}
.task{font-size:1.25rem;font-weight:650;min-height:1.6em;margin:.6em 0}
progress{accent-color:var(--string);width:min(100%,320px);height:14px}
.finding{background:var(--sheet);border:1px solid var(--edge);border-left:6px solid var(--copper);border-radius:3px;padding:12px 18px;margin:12px 0}
.finding h3{margin:0}.cure{border-left:3px solid var(--string);padding-left:10px}
.steps{padding-left:1.4em}.steps li{margin:.5em 0}.steps .is-good strong{color:var(--string)}.steps .is-bad strong{color:var(--bad)}
.tries li{margin:.4em 0}
.levels{display:grid;gap:8px;margin:12px 0}.levels>div{display:grid;grid-template-columns:5em 1fr 12em;gap:10px;align-items:center}
@media (max-width:1000px){.live{grid-template-columns:minmax(0,1fr)}}
@media (max-width:640px){#app>main,.top,.tabs,.status{padding-left:12px;padding-right:12px}.tabs a{padding:7px 9px}.link{text-align:left}.link .row{justify-content:flex-start}.state{min-width:0}.levels>div{grid-template-columns:4em 1fr}}
@media (prefers-reduced-motion:no-preference){.bar-fill{transition:transform 60ms linear}}
`.trim();
