// How the steps of the ladder are set on a page, and what they share with the printed card.

export const TRACE_STYLE = `
.trace{display:block;width:100%;height:auto;font-family:var(--sans)}
.trace text{paint-order:stroke}
.traces{display:grid;grid-template-columns:1fr 1fr;gap:.35rem}
.set{white-space:nowrap;margin-right:.5em}
.set i{font:italic 600 1em/1 var(--serif);color:var(--contour)}
.set b{font-weight:600;font-variant-numeric:lining-nums tabular-nums}
.set small{display:inline}`;

export const LADDER_STYLE = `${TRACE_STYLE}
.first-flight{display:grid;grid-template-columns:minmax(0,1fr) minmax(9rem,13rem) minmax(0,1fr);gap:.6rem 1.6rem;background:var(--sheet);
border:1px solid var(--rule);border-left:.45rem double var(--ink);padding:.8rem 1rem}
.first-flight ol{list-style:decimal;padding-left:1.3rem}.first-flight li{padding:.12rem 0}.first-flight h3{margin-bottom:.3rem}
.ladder{display:grid;gap:.5rem}
.rung{background:var(--sheet);border:1px solid var(--rule);border-left:.45rem solid var(--ink);padding:.6rem 1rem}
.rung-body{display:grid;grid-template-columns:minmax(10rem,14rem) repeat(2,minmax(0,1fr)) minmax(0,1.1fr);gap:.6rem 1.3rem;padding:.4rem 0 .2rem}
.rung summary{display:flex;flex-wrap:wrap;gap:.1rem 1.4rem;align-items:baseline;cursor:pointer}
.rung summary::after{content:"+";font:600 1.3rem/1 var(--serif);color:var(--contour);margin-left:auto}
.rung[open] summary::after{content:"\\2212"}.rung[open] summary .sets{display:none}
.rung summary:focus-visible{outline:3px solid var(--contour);outline-offset:2px}
.rung.d{border-left-color:var(--soft)}.rung.check{border-left-color:var(--rule)}
.rung p{margin:.2rem 0}
.rung .no{display:inline-block;min-width:1.7em;height:1.7em;line-height:1.6em;text-align:center;border:2px solid var(--ink);border-radius:50%;
font:600 1rem/1.6 var(--sans);margin-right:.3em}
.rung .pack{color:var(--soft);font-size:.92rem}
.sets{font-size:1.15rem}
.predicted{font-size:.9rem;color:var(--soft);margin-top:.35rem}
.watch div{display:grid;grid-template-columns:4.2rem 1fr;gap:.5rem;padding:.12rem 0;font-size:.94rem}
.watch dt{font:italic 600 1rem/1.4 var(--serif);color:var(--contour)}
.watch .land dt{color:var(--warn)}
.watch .change dd{font-weight:600}
@media (max-width:75rem){.rung-body{grid-template-columns:1fr 1fr}.rung-head,.watch{grid-column:1/-1}}
@media (max-width:38rem){.first-flight{grid-template-columns:minmax(0,1fr);padding:.7rem .6rem}.first-flight figure{max-width:12rem}.rung{padding:.5rem .6rem}.rung-body{grid-template-columns:minmax(0,1fr)}.rung summary .sets{font-size:1rem}.watch div{grid-template-columns:1fr;gap:0}}
@media print{.first-flight{break-inside:avoid}.rung{break-inside:avoid}.rung-body{grid-template-columns:1fr 1fr}.rung::details-content{content-visibility:visible;display:block}
.rung summary::after,.rung summary .sets{display:none}.rung-head,.watch{grid-column:1/-1}}`;
