// The printed card: black ink on white, two pages on A4 and on Letter alike. The size of a page is the printer's; what
// is set fits the narrower and the shorter of the two.
import { TRACE_STYLE } from "../ladder/style.js";
import { PRINT, properties } from "../page/palette.js";

const SHEET = `:root{color-scheme:light;${properties(PRINT)}
--serif:"Iowan Old Style","Palatino Linotype",Palatino,P052,"Book Antiqua",Georgia,serif;
--sans:"Helvetica Neue",Helvetica,Arial,"Liberation Sans","Nimbus Sans",sans-serif}
@page{margin:8mm 11mm}
*{box-sizing:border-box}
html{font:7.8pt/1.22 var(--sans);color:var(--ink);background:#fff}
body{margin:0 auto;max-width:193mm}
h1,h2,h3,p,ol,figure{margin:0;padding:0}
h1,h2,h3{font-family:var(--serif);line-height:1.1}
h1{font-size:16pt}h2{font-size:10.5pt;margin:1.3mm 0 .6mm}h3{font-size:10pt}
h2 small{font:400 7.6pt/1.22 var(--sans)}
header{display:grid;grid-template-columns:auto 1fr;align-items:end;gap:0 6mm;border-bottom:.6mm double #000;padding-bottom:1mm}
header h1{grid-row:1/3}.series{font:italic 8.5pt/1 var(--serif)}
code{font-family:ui-monospace,Menlo,Consolas,"Liberation Mono",monospace;overflow-wrap:anywhere}`;

const BOXES = `
.blanks{display:flex;gap:4mm;align-items:end}
.blank{flex:1 1 12mm;border-bottom:.25mm solid #000;min-width:12mm;min-height:4.4mm;font-size:7.2pt;color:var(--soft)}
.blank.wide{flex-grow:4}
.tick::before{content:"";display:inline-block;width:2.6mm;height:2.6mm;border:.3mm solid #000;margin-right:1mm;vertical-align:-.35mm}
.tick{white-space:nowrap;margin-right:2.4mm}
.before{margin-top:.7mm}
.first-flight{display:grid;grid-template-columns:minmax(0,1fr) 25mm minmax(0,1fr);gap:0 2mm;border:.3mm solid #000;border-left-width:1.2mm;padding:.9mm 1.6mm}
.check-line{padding-left:3.8mm;text-indent:-3.8mm;margin-top:.35mm}.check-line .tick{margin-right:0}.check-line .tick::before{margin-right:1.2mm}
.motor-plan{display:block;width:100%;height:auto;font-family:var(--sans)}`;

const FLIGHTS = `
.flights{list-style:none;border-top:.3mm solid #000}
.flight{border-bottom:.3mm solid #000;padding:.8mm 0 .5mm;break-inside:avoid}
.do{display:flex;align-items:baseline;gap:0 4mm}.do .motors{margin-left:auto}
.no{display:inline-block;width:5mm;height:5mm;text-align:center;border:.4mm solid #000;border-radius:50%;font:700 8.6pt/4.2mm var(--sans)}
.sets{font-size:10pt;white-space:nowrap}
.sets small{font-size:7pt;color:var(--soft)}
.flight .traces{grid-template-columns:repeat(4,minmax(0,1fr));gap:1.5mm;margin-top:.4mm}
figcaption{font-size:7pt;line-height:1.15}
.fly b,.see b{font-family:var(--serif);line-height:1}
b.land{text-decoration:underline}
.observed{margin-top:.2mm}
.observed p{display:flex;align-items:end;min-height:3.8mm;white-space:nowrap;font-size:7.6pt}
.observed .axis{flex:none;width:8.5mm}.observed .blank{flex:0 0 13mm;min-height:3.6mm;margin-left:1.2mm}.observed .blank.wide{flex:1 1 8mm;min-width:6mm}
.observed .ask{margin:0 1.2mm 0 1.8mm}.observed .tick{margin-right:1.2mm}.observed .tick::before{margin-right:.7mm}
.motors{font-size:7.6pt;white-space:nowrap}.motors .tick{margin:0 0 0 1.2mm}
.checks .flights{display:grid;grid-template-columns:1fr 1fr;gap:0 4mm}
.checks .flight .traces{grid-template-columns:1fr 1fr}
h2{break-after:avoid}
.record .blanks{margin-top:2mm}
footer{margin-top:1mm}
.small{font-size:6.6pt;color:var(--soft);margin-top:1mm}`;

const GROUNDED = `
.banner,.grounded h2{border:1.6mm solid;border-image:repeating-linear-gradient(135deg,#000 0 1.6mm,#fff 1.6mm 3.2mm) 6;text-align:center;text-wrap:balance}
.banner{font:700 13pt/1.2 var(--serif);padding:1mm 2mm;margin-top:2mm}
.grounded h2{font-size:52pt;text-transform:uppercase;letter-spacing:.02em;padding:6mm 2mm;margin:6mm 0}
.grounded p{font-size:11pt;margin-top:3mm}.grounded .reason{font:700 15pt/1.25 var(--serif)}`;

const SCREEN = `
@media screen{html{font-size:11pt;background:#e9e6dd}body{margin:8mm auto;padding:11mm;max-width:215mm;background:#fff}
.blanks,.observed p,.do{flex-wrap:wrap}.observed p{font-size:9.5pt}.sets{font-size:13pt}.sets small{font-size:9pt}figcaption,.motors,.small,h2 small{font-size:9pt}}
@media screen and (max-width:52rem){body{margin:0 auto;padding:4mm}.first-flight,.checks .flights{grid-template-columns:minmax(0,1fr)}.motor-plan{max-width:44mm}
.flight .traces,.checks .flight .traces{grid-template-columns:1fr 1fr}.tick,.sets,.observed p,.motors{white-space:normal}.do{gap:.4mm 4mm}.grounded h2{font-size:34pt}header{grid-template-columns:1fr}.do .motors{margin-left:0}}`;

export const CARD_STYLE = [SHEET, BOXES, FLIGHTS, GROUNDED, TRACE_STYLE, SCREEN].join("");

/** Where the line stands that a map which was changed by hand asks for. */
export const UNSEALED_STYLE = "header .unsealed{grid-column:1/-1;grid-row:3}";
