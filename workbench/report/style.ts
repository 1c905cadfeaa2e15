/**
 * The report's look: a drawing on the bench. Marks differ by shape, dash or place as well as by colour;
 * text reaches a contrast of 4.5 : 1 in both schemes.
 */
export const REPORT_STYLE = `
:root{color-scheme:light dark;
--ground:#f3f5f2;--sheet:#fcfdfb;--ink:#17211c;--soft:#4d5a53;--edge:#c6cfc8;--grid:#e1e7e2;
--string:#00624d;--string-wash:#dcece5;--copper:#99400f;--steel:#5c6b74;--dot:#8b9790;--bad:#9c1f2e;--bad-wash:#f8e4e4;--warn-wash:#f7ecd6}
@media (prefers-color-scheme:dark){:root{
--ground:#101613;--sheet:#171f1b;--ink:#e6ece8;--soft:#a5b3ab;--edge:#3a463f;--grid:#27312c;
--string:#5fcfae;--string-wash:#17352b;--copper:#f2a06b;--steel:#9fb0ba;--dot:#6f7d76;--bad:#ff9b9f;--bad-wash:#3b1f22;--warn-wash:#372d17}}
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%;text-size-adjust:100%}
body{margin:0;background:var(--ground);color:var(--ink);font:16px/1.55 "Helvetica Neue","Segoe UI",Roboto,"Liberation Sans",Arial,system-ui,sans-serif;overflow-wrap:anywhere}
.rule{height:14px;background:repeating-linear-gradient(90deg,var(--steel) 0 1px,transparent 1px 50px) 0 0/100% 14px no-repeat,repeating-linear-gradient(90deg,var(--steel) 0 1px,transparent 1px 10px) 0 0/100% 7px no-repeat,var(--sheet);border-bottom:1px solid var(--edge)}
main,header,footer{max-width:960px;margin:0 auto;padding:0 24px}
header{padding-top:28px}
h1{font-size:1.75rem;line-height:1.2;margin:.15em 0 .3em;font-weight:650;letter-spacing:-.01em}
h2{font-size:1.2rem;line-height:1.3;margin:0 0 .5em;font-weight:650}
h3{font-size:1rem;margin:1.4em 0 .4em;font-weight:650}
p{margin:0 0 .8em;max-width:68ch}table+p,.scroll+p{margin-top:1em}
.over,.under{color:var(--soft);margin:0;font-size:.9rem;max-width:none}
nav{margin:14px 0 0;font-size:.9rem;display:flex;flex-wrap:wrap;gap:4px 18px}
a{color:var(--string);text-underline-offset:.2em}
section{background:var(--sheet);border:1px solid var(--edge);border-radius:3px;padding:22px 24px;margin:18px 0}
.verdict{border-left:6px solid var(--string)}
.verdict.no{border-left-color:var(--bad)}
.stamp{display:inline-block;font-weight:700;font-size:.95rem;border:2px solid var(--string);color:var(--string);border-radius:3px;padding:1px 10px;margin:0 0 10px}
.no .stamp{border-color:var(--bad);color:var(--bad);border-style:dashed}
.headline{font-size:1.2rem;line-height:1.4}
.notice{background:var(--warn-wash);padding:10px 14px;border-radius:3px;margin:14px 0}
.notice ul,.plain{margin:.2em 0 .6em;padding-left:1.2em}
.plain li{margin:.2em 0;max-width:68ch}
.scroll{overflow-x:auto;max-width:100%}
.tall{max-height:70vh;overflow:auto;border:1px solid var(--edge)}
.scroll:focus-visible,a:focus-visible,summary:focus-visible,button:focus-visible,input:focus-visible{outline:3px solid var(--copper);outline-offset:2px}
table{border-collapse:collapse;width:100%;font-size:.92rem;font-variant-numeric:tabular-nums;overflow-wrap:normal}
th,td{text-align:left;padding:6px 12px 6px 0;border-bottom:1px solid var(--edge);vertical-align:top}
thead th{color:var(--soft);font-weight:600;font-size:.85rem}
tbody th{font-weight:500}
.n{text-align:right}td.n{white-space:nowrap}td.unit,td.range{color:var(--soft)}.words{min-width:15em}.scroll .id{min-width:11em}
.id,code,pre,kbd{font-family:ui-monospace,"Cascadia Mono","DejaVu Sans Mono",Menlo,Consolas,monospace;font-size:.88em}
.small{color:var(--soft);font-size:.85rem}
td.yes::before{content:"\\2713\\00a0"}td.barely::before{content:"\\2248\\00a0"}td.no::before{content:"\\2717\\00a0"}
td.yes{color:var(--string);font-weight:600}td.no{color:var(--bad);font-weight:700}td.barely{color:var(--copper);font-weight:600}
pre{background:var(--ground);border:1px solid var(--edge);border-radius:3px;padding:10px 14px;overflow-x:auto;margin:.4em 0 1em;overflow-wrap:normal}
pre.wrap{white-space:pre-wrap;overflow-wrap:anywhere}
figure{margin:0}
figcaption{color:var(--soft);font-size:.9rem;max-width:72ch;margin-top:6px}
svg.plot{display:block;width:100%;height:auto}
svg .slim,.slim{display:none!important}
section>:last-child,.notice>:last-child{margin-bottom:0}
figure+details{margin-top:14px}
.given{table-layout:fixed}.given th:nth-child(1){width:26%}.given th:nth-child(2){width:18%}.given th:nth-child(3){width:31%}.given td{overflow-wrap:anywhere}
details>summary{cursor:pointer;font-weight:600;padding:4px 0}
#all-settings{white-space:nowrap;font-size:.82rem}
#all-settings th,#all-settings td{padding:3px 14px 3px 8px}
#all-settings thead th{position:sticky;top:0;background:var(--sheet);white-space:normal;vertical-align:bottom;min-width:5.5em}
#all-settings button{all:unset;cursor:pointer}
#all-settings th[aria-sort=ascending] button::after{content:" \\25B4"}
#all-settings th[aria-sort=descending] button::after{content:" \\25BE"}
#all-settings .picked{background:var(--string-wash)}
.finder{margin:10px 0}
.finder input{font:inherit;color:inherit;background:var(--ground);border:1px solid var(--steel);border-radius:3px;padding:5px 9px;width:min(100%,22em)}
footer{color:var(--soft);font-size:.85rem;padding-bottom:36px}
svg text{font-size:12px;fill:var(--ink)}
svg .tick{fill:var(--soft)}svg .name{fill:var(--soft);font-weight:600}svg .strong{font-weight:700}svg .faded{fill:var(--soft)}
svg .halo{paint-order:stroke;stroke:var(--sheet);stroke-width:4px;stroke-linejoin:round}
svg .wish-text{fill:var(--copper);font-weight:600}svg .pick-text{font-weight:700}
svg .grid{stroke:var(--grid);stroke-width:1}svg .axis{stroke:var(--steel);stroke-width:1}svg .zero{stroke:var(--ink);stroke-width:1}
svg .dot{stroke:var(--dot);stroke-width:3.2;stroke-linecap:round;fill:none;opacity:.55}
svg .front{fill:none;stroke:var(--string);stroke-width:1.6}
svg .front-mark{fill:var(--sheet);stroke:var(--string);stroke-width:1.6}
svg .wish{stroke:var(--copper);stroke-width:1.6;stroke-dasharray:7 4}
svg .wished-area{fill:var(--string-wash);opacity:.6}
svg .pick-ring{fill:var(--sheet);stroke:var(--ink);stroke-width:2.4}svg .pick-core{fill:var(--ink)}svg .pick-bar{stroke:var(--ink);stroke-width:1.6}
svg .raw-dot{stroke:var(--steel);stroke-width:3.4;stroke-linecap:round;fill:none;opacity:.85}
svg .truth{fill:none;stroke:var(--ink);stroke-width:1.6;stroke-dasharray:5 4}
svg .smooth{fill:none;stroke:var(--string);stroke-width:2.4;stroke-linejoin:round}
svg .raw-area{fill:var(--steel);fill-opacity:.35;stroke:var(--steel)}
svg .smooth-area{fill:var(--string);fill-opacity:.35;stroke:var(--string)}
svg .sd-bar,svg .whisker{stroke:var(--ink);stroke-width:1.4}
svg .lag-part{fill:var(--steel)}svg .lag-sum{fill:var(--string)}
svg .bar-helps{fill:var(--string);fill-opacity:.5;stroke:var(--string);stroke-width:1.6}
svg .bar-harms{fill:var(--sheet);stroke:var(--bad);stroke-width:1.6}
svg .bar-unclear{fill:var(--edge);stroke:var(--steel);stroke-dasharray:2 2}
@media (max-width:640px){
body{font-size:15px}main,header,footer{padding-left:14px;padding-right:14px}section{padding:16px 14px}
.wide{display:none!important}.slim{display:block!important}
h1{font-size:1.45rem}.headline{font-size:1.08rem}
.stack thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.stack tr{display:grid;grid-template-columns:1fr auto;padding:8px 0;border-bottom:1px solid var(--edge)}
.stack th,.stack td{border:0;padding:1px 0}
.stack th{grid-column:1/-1;font-weight:650}
.stack td[data-name]::before{content:attr(data-name) " ";color:var(--soft);font-weight:400}
.stack td{text-align:left;grid-column:1/-1;white-space:normal}
.given thead th,.given tbody th{width:auto!important}
.wishes tr{display:flex;flex-wrap:wrap;gap:0 .4em}
.wishes th{flex:0 0 70%}
.wishes td:last-child{order:1;flex:0 0 calc(30% - .5em);text-align:right}.wishes td.none{display:none}
.wishes td.n{order:2}.wishes td.unit{order:3}.wishes td.range{order:4}.wishes td.range::before{content:"("}.wishes td.range::after{content:")"}
.wishes td.wish{order:5;flex:1 0 100%}
.words,.scroll .id{min-width:9em}
}
@media print{
:root{color-scheme:light;--ground:#fff;--sheet:#fff;--ink:#000;--soft:#333;--edge:#aaa;--grid:#ddd;--string:#00624d;--string-wash:#e6f0ec;--copper:#7a330c;--steel:#555;--dot:#888;--bad:#8a1020;--bad-wash:#fff;--warn-wash:#fff}
body{font-size:10.5pt}nav,.rule,.finder{display:none}
section{border:0;border-top:1px solid #aaa;padding:10pt 0;margin:0}
.verdict{border-left:4pt solid var(--string);padding-left:10pt}
figure,tr,pre{break-inside:avoid}h2{break-after:avoid}
.scroll,.tall{overflow:visible;max-height:none;border:0}
a{color:inherit}
}
`.trim();
