/** What the build sheet adds to the report's look; printed, it is one page of A4. */
export const SHEET_STYLE = `
.sheet h2{font-size:1.05rem}
.sheet .parts-list{list-style:none;margin:0;padding:0;columns:2;column-gap:28px}
.sheet .parts-list li{break-inside:avoid;padding:2px 0 2px 22px;position:relative}
.sheet .parts-list li::before{content:"";position:absolute;left:0;top:.5em;width:11px;height:11px;border:1.4px solid var(--steel);border-radius:2px}
.sheet .parts-list span{display:inline-block}
.sheet .parts-list b{font-weight:650;font-variant-numeric:tabular-nums}
.sheet ol{margin:0;padding-left:1.5em}.sheet ol li{margin:.3em 0;max-width:72ch}
.sheet dl{margin:0;display:grid;grid-template-columns:9em 1fr;gap:4px 14px}
.sheet dt{font-weight:650}.sheet dd{margin:0;max-width:68ch}
.sheet #cautions{border-left:6px solid var(--copper)}
@media (max-width:640px){.sheet .stack tr{display:block}.sheet .stack th{display:block}.sheet .stack td{display:inline-block;padding:1px 14px 1px 0}
.sheet .parts-list{columns:1}.sheet dl{display:block}.sheet dd{margin:0 0 .6em}}
@page{size:A4;margin:13mm 11mm 12mm}
@media print{
.sheet{font-size:var(--print-size,8pt);line-height:1.25}
.sheet main,.sheet header,.sheet footer{max-width:none;padding:0;margin:0}
.sheet h1{font-size:1.7em;margin:0}.sheet h2{font-size:1.15em;margin:0 0 .15em}
.sheet .under,.sheet .over,.sheet .small{font-size:.93em}
.sheet section{padding:.4em 0 .5em;break-inside:avoid}.sheet .notice{padding:0;margin:.3em 0}
.sheet p{margin:0 0 .25em;max-width:none}.sheet table+p{margin-top:.3em}
.sheet table{font-size:1em}.sheet th,.sheet td{padding:.12em .8em .12em 0}.sheet thead th{font-size:.92em}
.sheet .n{padding-right:0;padding-left:.8em}
.sheet .plain{margin:0;padding-left:1.2em}.sheet .plain li{margin:0;max-width:none}
.sheet .wires{columns:2;column-gap:1.8em}
.sheet .two{columns:2;column-gap:1.8em}.sheet .two section{break-inside:auto}.sheet .two li,.sheet .two dd{break-inside:avoid}
.sheet .parts-list li{padding:0 0 .1em 1.35em}.sheet .parts-list li::before{width:.75em;height:.75em;top:.2em;border-width:.7pt}
.sheet .parts-list{column-gap:1.8em}
.sheet ol li{margin:0 0 .22em;max-width:none}.sheet ol{padding-left:1.5em}
.sheet dl{display:block}.sheet dt{display:inline;margin-right:.4em}.sheet dd{display:inline;max-width:none}
.sheet dd::after{content:"";display:block;margin-bottom:.22em}
.sheet #cautions{border-left:0}
.sheet footer{font-size:.93em;padding:.3em 0 0}
.sheet.long .parts-list{columns:3}
}
`.trim();
