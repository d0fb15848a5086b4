// The printed card: black ink on white, two pages on A4 and on Letter alike. The size of a page is the printer's; what
// is set fits the narrower and the shorter of the two.
import { TRACE_STYLE } from "../ladder/style.js";
import { PRINT, properties } from "../page/palette.js";

export const CARD_STYLE = `:root{color-scheme:light;${properties(PRINT)}
--serif:"Iowan Old Style","Palatino Linotype",Palatino,P052,"Book Antiqua",Georgia,serif;
--sans:"Helvetica Neue",Helvetica,Arial,"Liberation Sans","Nimbus Sans",sans-serif}
@page{margin:11mm}
*{box-sizing:border-box}
html{font:8.4pt/1.28 var(--sans);color:var(--ink);background:#fff}
body{margin:0 auto;max-width:186mm}
h1,h2,h3,p,ol{margin:0;padding:0}
h1,h2,h3{font-family:var(--serif);line-height:1.1}
h1{font-size:17pt}h2{font-size:11pt;margin:2.2mm 0 1mm}h3{font-size:10pt}
header{display:grid;grid-template-columns:auto 1fr;align-items:end;gap:0 6mm;border-bottom:.6mm double #000;padding-bottom:1.5mm}
.series{grid-column:1/-1;font:italic 9pt var(--serif);color:var(--contour)}
.blanks{display:flex;gap:4mm;align-items:end}
.blank{flex:1 1 12mm;border-bottom:.25mm solid #000;min-width:12mm;min-height:4.6mm;font-size:7.4pt;color:var(--soft)}
.blank.wide{flex-grow:4}
.tick::before{content:"";display:inline-block;width:2.7mm;height:2.7mm;border:.3mm solid #000;margin-right:1mm;vertical-align:-.35mm}
.tick{white-space:nowrap;margin-right:2.6mm}
.before{margin-top:1.6mm}
.flights{list-style:none;border-top:.3mm solid #000}
.flight{display:grid;grid-template-columns:44mm 57mm minmax(0,1fr);gap:0 3mm;border-bottom:.3mm solid #000;padding:1mm 0 .7mm;break-inside:avoid}
.no{display:inline-block;width:5.4mm;height:5.4mm;line-height:4.9mm;text-align:center;border:.4mm solid #000;border-radius:50%;font:700 9pt/4.7mm var(--sans)}
.sets{font-size:9.6pt;white-space:nowrap}.do .sets{display:block;margin-top:.9mm}
.sets small{font-size:7.2pt;color:var(--soft)}
.traces{gap:1mm;align-content:start}
.see p{margin-bottom:.45mm}.see b{font-family:var(--serif);line-height:1}
b.land{text-decoration:underline}
h2 small{font:400 7.8pt var(--sans)}
.observed{grid-column:1/-1;margin-top:.4mm}
.observed p{display:flex;align-items:end;min-height:3.9mm;white-space:nowrap;font-size:7.8pt}
.observed .axis{flex:none;width:9mm}.observed .blank{flex:0 0 14mm;min-height:3.7mm;margin-left:1.4mm}.observed .blank.wide{flex:1 1 12mm}
.observed .ask{margin:0 1.6mm 0 2.4mm}.observed .tick{margin-right:1.6mm}
.motors{font-size:7.8pt;margin-top:1.4mm;white-space:nowrap}.motors .tick{margin:0 0 0 1.4mm}
.climb-d{break-before:page}
.small{font-size:6.8pt;color:var(--soft);margin-top:1.4mm}
${TRACE_STYLE}
@media screen{html{font-size:11pt;background:#e9e6dd}body{margin:8mm auto;padding:11mm;max-width:210mm;background:#fff}
.flight{grid-template-columns:minmax(0,1fr)}.blanks,.observed p{flex-wrap:wrap}}
@media screen and (min-width:52rem){.flight{grid-template-columns:44mm 60mm minmax(0,1fr)}}`;
