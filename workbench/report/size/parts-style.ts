/** What the table of parts adds to the report's look. */
export const PARTS_STYLE = `
.parts tbody tr:last-child>*{font-weight:650}
@media (max-width:640px){
.parts tr{display:block}.parts th,.parts td{display:block}
.parts td.n{display:inline-block;padding-right:12px}.parts td.n:empty{display:none}
}
`.trim();
