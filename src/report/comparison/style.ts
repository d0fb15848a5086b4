// What a comparison adds to the page's style sheet: the state of the pinned tune, the gates, before and now.
import { STYLE } from "../page/style.js";

const COMPARISON = `
.outcome{display:inline-block;margin:.35rem 0 .2rem;padding:.15rem .8rem .2rem;border:2px solid currentColor;font:600 1.25rem/1.3 var(--serif)}
.outcome.regression{color:var(--warn)}
.state{font:600 2.1rem/1.1 var(--serif);margin:.1rem 0 .35rem}
.state.bad{color:var(--warn)}
.state.good::before{content:"\\2713\\a0"/""}
.state.bad::before{content:"\\2715\\a0"/""}
.tune.pinned{grid-template-areas:"name map" "gains map" "facts facts" "say say"}
.pinned .locator{align-self:start}
.before-now{grid-area:facts;min-width:0;width:100%;background:none}
.before-now td{width:30%;white-space:normal}
.before-now tr:last-child>*{border-bottom:0}
.before-now th,.before-now td{padding:.2rem .5rem .2rem 0}
.before-now td:last-child,.before-now th:last-child{padding-right:0;font-weight:600}
.because{max-width:60rem}
.why th[scope=row]{max-width:22rem;white-space:normal}
.why tbody tr:nth-last-child(-n+2)>*{font-weight:600}
.gates{width:100%}
.gates th[scope=row]{max-width:26rem}
.gates td{min-width:9rem}
.gate.fail{background:color-mix(in srgb,var(--warn) 14%,transparent)}
.gate.fail b{color:var(--warn)}
.gate.skipped b{color:var(--soft);font-weight:400}
.notes li{padding:.2rem 0 .2rem 1rem;border-left:.3rem solid var(--warn);margin:.3rem 0}
details{margin:.8rem 0 1.6rem}
summary{cursor:pointer;color:var(--contour);padding:.3rem 0}
summary:focus-visible{outline:3px solid var(--contour);outline-offset:2px}
.pair+.pair{margin-top:1.2rem}
@media (max-width:38rem){.tune.pinned{grid-template-areas:"name" "gains" "facts" "map" "say"}.pinned .gains{display:block}.state{font-size:1.8rem}
.gates,.gates tbody{display:block}.gates thead{display:none}
.gates tr{display:grid;grid-template-columns:1fr 1fr;border-bottom:1px solid var(--rule)}
.gates th[scope=row],.gates .allowed{grid-column:1/-1;max-width:none;border:0}
.gates .allowed::before{content:"Allowed: ";color:var(--soft)}
.gates td{border:0}.gates .gate::before{content:attr(data-axis);display:block;color:var(--soft);font-size:.85rem}}
@media print{details{display:none}}`;

export const COMPARISON_STYLE: string = STYLE + COMPARISON;
