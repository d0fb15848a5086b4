// What the page of a sweep's changes adds to the style sheet: a finding over two small maps.
import { STYLE } from "../page/style.js";

const EFFECTS = `
.effects{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,36rem),1fr));gap:1.4rem}
.effect{background:var(--sheet);border:1px solid var(--rule);padding:.8rem 1rem}
.effect h3{font-size:1.2rem;line-height:1.3;margin-bottom:.5rem}
.effect .both{display:grid;grid-template-columns:1fr 1fr;gap:.8rem}
.effect h4{font-size:1rem}
.effect code{color:var(--soft)}
.numbers td.text{min-width:9rem}
.start ol li{padding:.2rem 0}
@media (max-width:38rem){.effect{padding:.7rem .6rem}.effect .both{grid-template-columns:1fr}}
@media print{.effect{break-inside:avoid}}`;

export const EFFECTS_STYLE: string = STYLE + EFFECTS;
