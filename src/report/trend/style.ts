// What a page of trends adds to the style sheet: the charts' grid and the table of steps.
import { STYLE } from "../page/style.js";

const TREND = `
.answer{font:600 clamp(1.35rem,1.1rem + .9vw,1.85rem)/1.25 var(--serif);margin:.2rem 0 .5rem;text-wrap:pretty}
.trends{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(100%,23rem),1fr));gap:1rem;margin-bottom:1.2rem}
.trend{background:var(--sheet);border:1px solid var(--rule);padding:.7rem .8rem .6rem}
.trend h3{font-size:1.1rem;margin-bottom:.3rem}
.steps td,.steps th{white-space:normal}
.steps td:nth-child(n+3){text-align:left;min-width:15rem}
.steps li{padding:.05rem 0}.steps .worse{color:var(--warn)}
.steps .worse::before{content:"\\25bc\\a0"/"worse: "}.steps .better::before{content:"\\25b2\\a0"/"better: "}.steps .neither::before{content:"\\25c6\\a0"/""}
.notes li{padding:.2rem 0 .2rem 1rem;border-left:.3rem solid var(--warn);margin:.3rem 0;overflow-wrap:anywhere}
.plain li{padding:.25rem 0;border-bottom:1px solid var(--rule)}
.maps td:nth-child(2){text-align:left}
.models td,.models th{white-space:normal}.models td:nth-child(2){text-align:left}
@media (max-width:38rem){.steps,.steps tbody,.steps tr,.steps td,.steps th{display:block;text-align:left;border:0;min-width:0}
.steps thead{display:none}.steps tr{border-bottom:1px solid var(--rule);padding:.4rem 0}.steps td::before{content:attr(data-column);color:var(--soft);font-size:.8rem;display:block}
.steps td:nth-child(n+3){min-width:0}.steps td,.steps th{padding:.1rem .3rem}}
@media print{.trends{grid-template-columns:repeat(3,minmax(0,1fr))}}`;

export const TREND_STYLE: string = STYLE + TREND;
