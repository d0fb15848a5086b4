// What the model's sheet adds to the style sheet.
export const SHEET_STYLE = `
.sheet .pair{grid-template-columns:repeat(auto-fit,minmax(min(100%,21rem),1fr))}.sheet .measures td{width:6rem}
.sheet h3{margin-bottom:.3rem}.sheet .provenance div{grid-template-columns:minmax(8rem,11rem) 1fr}
ul.doubts{max-width:62rem;margin:-.4rem 0 1rem;padding-left:1.2rem;list-style:square}ul.doubts li{padding:.15rem 0}
.doubts strong{color:var(--warn)}.sheet p.doubts:not(:has(+ul)) strong{color:inherit;font-weight:400}
@media (max-width:38rem){.sheet .provenance div{grid-template-columns:1fr}.sheet .measures td{width:auto}}`;
