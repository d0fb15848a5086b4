// What the night's front page adds to the style sheet: one row a pair, the worst first.
import { STYLE } from "../page/style.js";

const NIGHT = `
.answer{font:600 clamp(1.35rem,1.1rem + .9vw,1.85rem)/1.25 var(--serif);margin:.2rem 0 .5rem;text-wrap:pretty}
.answer.bad{border-left:.5rem solid var(--warn);padding-left:.8rem}
.night{width:100%}
.night td,.night th{white-space:normal;vertical-align:top;text-align:left}
.night th[scope=row]{min-width:12rem}
.night .regression{background:color-mix(in srgb,var(--warn) 14%,transparent)}
.night .regression b{color:var(--warn)}
.notes li{padding:.2rem 0 .2rem 1rem;border-left:.3rem solid var(--warn);margin:.3rem 0}
@media (max-width:38rem){.night,.night tbody{display:block}.night thead{display:none}
.night tr{display:grid;border-bottom:1px solid var(--rule);padding:.4rem 0}.night td,.night th{border:0;padding:.15rem 0}
.night td[data-column]::before{content:attr(data-column);display:block;color:var(--soft);font-size:.85rem}}`;

export const NIGHT_STYLE: string = STYLE + NIGHT;
