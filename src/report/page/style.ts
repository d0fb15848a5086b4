// The style sheet: a field map's sheet. Paper, ink and ground; serif letters for names, plain ones for facts.
import { DARK, LIGHT, properties } from "./palette.js";

const COLOURS = `:root{color-scheme:light dark;${properties(LIGHT)}
--serif:"Iowan Old Style","Palatino Linotype",Palatino,P052,"Book Antiqua",Georgia,serif;
--sans:"Helvetica Neue",Helvetica,Arial,"Liberation Sans","Nimbus Sans",sans-serif;
--mono:ui-monospace,SFMono-Regular,Menlo,Consolas,"Liberation Mono",monospace}
@media screen and (prefers-color-scheme:dark){:root{${properties(DARK)}}}`;

const BASE = `
*{box-sizing:border-box}
html{font-size:clamp(16px,.45vw + 10.2px,24px);scroll-behavior:smooth;-webkit-text-size-adjust:100%}
@media (prefers-reduced-motion:reduce){html{scroll-behavior:auto}}
body{margin:0 auto;max-width:104rem;padding:1.2rem clamp(1rem,2.6vw,3rem) 3rem;background:var(--paper);color:var(--ink);
font:1rem/1.5 var(--sans)}
h1,h2,h3,h4{font-family:var(--serif);font-weight:600;line-height:1.15;margin:0;text-wrap:balance}
h1{font-size:clamp(1.9rem,1.5rem + 1.2vw,2.6rem)}
h2{font-size:1.55rem;margin-bottom:.6rem}
h3{font-size:1.25rem}
p{margin:.3rem 0 .8rem;text-wrap:pretty}
a{color:var(--contour);text-underline-offset:.2em}
a:focus-visible,.scroll:focus-visible{outline:3px solid var(--contour);outline-offset:2px}
main>section{margin-top:2.2rem;padding-top:1.1rem;border-top:3px double var(--rule)}
.start{margin-top:.5rem;padding-top:.7rem}
.start h2,.cautions h2{font-size:1.3rem;margin-bottom:.35rem}
.lead{max-width:62rem;color:var(--soft)}
.pair{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,32rem),1fr));gap:1.2rem}
ul,ol{margin:0;padding:0;list-style:none}
dl,dd,figure{margin:0}
small{color:var(--soft);font-size:.85rem;font-weight:400;display:block}
footer{margin-top:2rem;color:var(--soft);border-top:1px solid var(--rule)}`;

const MASTHEAD = `
.masthead{display:grid;grid-template-columns:minmax(0,1fr) auto;column-gap:2rem}
.masthead>*{grid-column:1}
.masthead .relief{grid-area:1/2/span 4/3;width:24rem;height:100%;min-height:6.5rem;opacity:.7}
.relief path{vector-effect:non-scaling-stroke}
.masthead .series{margin:0;font-family:var(--serif);font-style:italic;letter-spacing:.05em;color:var(--contour)}
.masthead .sub{margin:.25rem 0 .1rem}
.masthead nav ul{display:flex;flex-wrap:wrap;gap:.1rem 1.1rem}
.masthead nav a{display:inline-block;padding:.3rem 0}
.masthead summary{color:var(--contour);cursor:pointer;padding:.3rem 0}
.masthead summary:focus-visible{outline:3px solid var(--contour);outline-offset:2px}
@media (min-width:38.01rem){@supports selector(::details-content){.masthead summary{display:none}
.masthead details::details-content{content-visibility:visible;display:block}}}`;

const START = `
.tune{display:grid;grid-template-columns:minmax(0,1fr) minmax(14rem,19rem);grid-template-areas:"name map" "gains map" "say say";
grid-template-rows:auto 1fr auto;gap:.3rem 1.2rem;background:var(--sheet);border:1px solid var(--ink);outline:1px solid var(--rule);
outline-offset:3px;margin:4px;padding:.8rem 1.1rem .7rem}
.tune h3{grid-area:name;font-size:1.5rem}
.gains{grid-area:gains}
.gain{display:grid;grid-template-columns:1.6rem 1fr;align-items:baseline;padding:.15rem 0;border-bottom:1px solid var(--rule)}
.gain:last-child{border-bottom:0}
.gain dt{font:italic 600 1.35rem/1 var(--serif);color:var(--contour)}
.gain b{font:600 2.7rem/1 var(--serif);font-variant-numeric:lining-nums tabular-nums;letter-spacing:-.01em}
.gain:last-child b{font-size:2rem}
.gain .unit{white-space:nowrap}
.gain .range{display:block;color:var(--soft);font-size:.9rem}
p .ours{display:inline}
.whose{margin-bottom:.8rem}.whose p{margin:.2rem 0}.whose strong{color:var(--ink)}.whose summary{cursor:pointer;color:var(--contour)}
.whose summary:focus-visible{outline:3px solid var(--contour);outline-offset:2px}
.locator{grid-area:map;align-self:center}
.sayings{grid-area:say;border-top:1px solid var(--rule);padding-top:.5rem}
.sayings div{display:grid;grid-template-columns:4rem 1fr;padding:.12rem 0}
.sayings dt{font:italic 600 1.05rem/1.45 var(--serif);color:var(--contour)}
.sayings .avoid dt{color:var(--warn)}
.sayings .along{display:block;max-width:30rem;padding:.15rem 0 .3rem}
.none{grid-area:gains;font-size:1.1rem}
.cautions{border-style:solid;border-width:.45rem 0 0;border-image:repeating-linear-gradient(135deg,var(--warn) 0 .45rem,transparent .45rem .9rem) 9;
margin-top:1rem;padding-top:.5rem;font-size:.92rem;line-height:1.4}
.cautions ul{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,16.5rem),1fr));gap:.55rem 1.6rem}
.cautions strong{display:block}`;

const FIGURES = `
svg{display:block;width:100%;height:auto;overflow:visible;font-family:var(--sans)}
svg text{paint-order:stroke}
svg text[font-style="italic"]{font-family:var(--serif);letter-spacing:.04em}
.axis-map,.throttle,.measure{background:var(--sheet);border:1px solid var(--rule);padding:.9rem 1rem .8rem}
.axis-map h3{margin-bottom:.4rem}
.throttle h3,.measure h4{font-size:1.1rem;margin-bottom:.3rem}
figcaption{color:var(--soft);font-size:.92rem;margin-top:.5rem}
.narrow{display:none}
.key{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,30rem),1fr));gap:.4rem 1.6rem;margin-bottom:1rem}
.key ul{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,15rem),1fr));gap:.5rem 1.2rem;align-content:start}
.key li{display:grid;grid-template-columns:2.75rem 1fr;gap:.6rem;align-items:start;font-size:.92rem;line-height:1.35}
.key b{display:block}
.key .swatch{width:2.75rem;margin-top:.15rem;outline:1px solid var(--rule)}
.pictures{margin-top:1.6rem}
.multiples{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,17.5rem),1fr));gap:1rem;margin-bottom:1.2rem}`;

const TABLES = `
.scroll{overflow-x:auto;margin-bottom:1.2rem}
.pair .scroll table{width:100%}
table{border-collapse:collapse;background:var(--sheet);font-variant-numeric:tabular-nums;min-width:min(100%,34rem)}
td{white-space:nowrap}.text,.absent{white-space:normal}
caption{text-align:left;font:600 1.1rem/1.3 var(--serif);padding-bottom:.35rem}
th,td{padding:.4rem .9rem;text-align:right;border-bottom:1px solid var(--rule);vertical-align:top}
thead th{border-bottom:2px solid var(--ink);font-weight:600}
th[scope=row],thead th:first-child,.text{text-align:left}
th[scope=row]{font-weight:600}
.room th{white-space:nowrap}
.measures{width:100%;max-width:60rem}.measures td{width:9rem}
.unit-of{font-weight:400;color:var(--soft)}
.absent{color:var(--soft);font-style:italic}
.assumptions{columns:2 26rem;column-gap:2rem}
.assumptions li{padding:.15rem 0;break-inside:avoid}
.provenance div{display:grid;grid-template-columns:8rem 1fr;gap:.8rem;padding:.25rem 0;border-bottom:1px solid var(--rule)}
.provenance dt{color:var(--soft)}
code,pre{font-family:var(--mono);font-size:.92rem;overflow-wrap:anywhere}
pre{background:var(--sheet);border:1px solid var(--rule);padding:.7rem .9rem;margin:0;white-space:pre-wrap}`;

const PHONE = `
@media (max-width:60rem){.masthead .relief{display:none}}
@media (max-width:38rem){.wide{display:none}.narrow{display:block}.axis-map,.throttle,.measure{padding:.7rem .5rem}
.tune{grid-template-columns:1fr;grid-template-areas:"name" "gains" "map" "say";padding:.7rem .8rem}
.gains{display:grid;grid-template-columns:repeat(3,auto);justify-content:space-between;gap:.4rem}
.gain{display:block;border:0;padding:0}.gain b,.gain:last-child b{display:block;font-size:2.2rem;margin:.1rem 0 .2rem}
.gain .unit,.gain .range{font-size:.8rem;display:block}
.locator{max-width:19rem;justify-self:center;width:100%}.sayings .along{margin-left:-4rem;padding-top:1.6rem}
.masthead nav ul{column-gap:.8rem;font-size:.9rem}
th,td{padding:.4rem .45rem}table{min-width:100%}.measures td{width:auto}
.provenance div{grid-template-columns:1fr;gap:0}}`;

const PRINT = `
@media print{@page{margin:12mm}
html{font-size:9.5pt}body{max-width:none;padding:0;background:none}
nav{display:none}.tune,figure,tr,.cautions,.key{break-inside:avoid}h2,h3,caption,.lead{break-after:avoid}
.pair,.multiples{grid-template-columns:minmax(0,1fr) minmax(0,1fr)}section:has(#map),section:has(#throttle){break-before:page}.tune{grid-template-columns:1fr;grid-template-areas:"name" "gains" "map" "say"}
.locator{max-width:19rem;justify-self:center;width:100%}.cautions ul{grid-template-columns:1fr 1fr}
.key ul{grid-template-columns:1fr 1fr 1fr}.wide{display:none}.narrow{display:block}}`;

export const STYLE: string = [COLOURS, BASE, MASTHEAD, START, FIGURES, TABLES, PHONE, PRINT].join("");
