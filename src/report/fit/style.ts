// What a fit's page adds to the style sheet: its answer, the strips, intervals in tables.
import { STYLE } from "../page/style.js";

const FIT = `
.answer{font:600 clamp(1.35rem,1.1rem + .9vw,1.85rem)/1.25 var(--serif);margin:.2rem 0 .5rem;text-wrap:pretty}
.answer.bad{border-left:.5rem solid var(--warn);padding-left:.8rem}
.advice{max-width:62rem;padding-left:1.2rem;list-style:square}.advice li{padding:.15rem 0}
.tune.flown,.tune.flown .gains{display:block}.flown .sayings{margin-top:.5rem}.flown .strip{max-width:30rem}
.call{font:600 1.3rem/1.2 var(--serif);margin:0}.call.bad{color:var(--warn)}
.call.good::before{content:"\\2713\\a0"/""}.call.bad::before{content:"\\2715\\a0"/""}
.intervals{width:132px;height:26px}
.fit-numbers td,.fit-numbers th{vertical-align:middle;padding-block:.25rem}
.fit-numbers{width:100%;max-width:66rem}
.fit-numbers .learnt{width:7rem}
.plots .plot+.plot{margin-top:.3rem}
.plain{max-width:62rem}.plain li{padding:.25rem 0;border-bottom:1px solid var(--rule)}
.two{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,26rem),1fr));gap:1.4rem}
.pair+h3{margin:1rem 0 .3rem}.pair{margin-top:.6rem}
.two h3{margin-bottom:.4rem}
.next li{display:grid;grid-template-columns:1.6rem 1fr;gap:.4rem;padding:.35rem 0;border-bottom:1px solid var(--rule)}
.next b{font:italic 600 1.2rem/1.3 var(--serif);color:var(--contour)}
.remarks td,.remarks th{white-space:normal;overflow-wrap:anywhere}
details{margin:.8rem 0 0}summary{cursor:pointer;color:var(--contour);padding:.3rem 0}
summary:focus-visible{outline:3px solid var(--contour);outline-offset:2px}
.rest{color:var(--soft);font-size:.92rem;max-width:62rem}
@media (max-width:38rem){.fit-numbers thead{display:none}.fit-numbers,.fit-numbers tbody{display:block}
.fit-numbers tr{display:grid;grid-template-columns:1fr 1fr;border-bottom:1px solid var(--rule);padding:.3rem 0}
.fit-numbers th,.fit-numbers td{border:0;text-align:left;padding:.1rem .3rem}.fit-numbers th[scope=row]{grid-column:1/-1}
.fit-numbers td::before{content:attr(data-column);display:block;color:var(--soft);font-size:.8rem}.fit-numbers .learnt{width:auto}}
@media print{section:has(#numbers),section:has(#response){break-before:page}.figure-pair{grid-template-columns:1fr 1fr}
section:has(#boundary) .pair{break-inside:avoid}details{display:block}}`;

export const FIT_STYLE: string = STYLE + FIT;
