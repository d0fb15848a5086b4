// Style of the parts that need the script: the overlays of the maps, their switch, the trial panel.

const OVER = `
.plate{position:relative}
.over{position:absolute;cursor:crosshair;touch-action:pan-x pan-y pinch-zoom}
.over svg{width:100%;height:100%}
.over:focus-visible{outline:3px solid var(--contour);outline-offset:3px}
.cross .under{stroke:var(--sheet);stroke-width:3.5;opacity:.75;fill:none}
.cross .line{stroke:var(--ink);stroke-width:1;stroke-dasharray:5 3;fill:none}
.cross .spot{fill:none;stroke:var(--ink);stroke-width:2.4}
.sign-halo{fill:var(--sheet);stroke:var(--sheet);stroke-width:5;stroke-linejoin:round}
.sign{fill:var(--sheet);stroke-width:2.4;stroke-linejoin:round}
.sign.start{stroke:var(--warn)}.core.start{fill:var(--warn)}.sign.pinned{stroke:var(--ink)}.core.pinned{fill:var(--ink)}
.contour-label{fill:var(--ink);stroke:var(--sheet);stroke-width:5;stroke-linejoin:round;text-anchor:middle;dominant-baseline:central}
.ground-name{stroke-width:3.4;stroke-linejoin:round;text-anchor:middle;dominant-baseline:central;font-family:var(--serif);font-style:italic;font-weight:700;letter-spacing:.04em}`;

const FORMS = `
button,select,input[type=number]{font:inherit;color:var(--ink);background:var(--sheet);border:1px solid var(--ink);border-radius:2px;
padding:.35rem .7rem;min-height:2.4rem}
button{cursor:pointer;border-width:2px;font-weight:600}
button:hover{background:var(--clean)}
:is(button,select,input):focus-visible{outline:3px solid var(--contour);outline-offset:2px}
input[type=radio]{accent-color:var(--contour);width:1.05rem;height:1.05rem;vertical-align:-.15rem}
input[type=range]{accent-color:var(--contour);width:100%;min-height:1.6rem}
.switch{display:flex;flex-wrap:wrap;gap:.6rem 1.6rem;align-items:end;margin-bottom:1rem}
.switch fieldset{border:1px solid var(--rule);padding:.25rem .9rem .55rem;margin:0;display:flex;flex-wrap:wrap;gap:.2rem 1.1rem}
.switch legend,#trial-form legend{font:italic 600 1.05rem var(--serif);color:var(--contour);padding:0 .3rem}
.switch label,#trial-form label{padding:.25rem 0}
.switch .status{flex-basis:100%;margin:0;color:var(--soft)}.status:empty{display:none}
[hidden]{display:none!important}`;

const READOUT = `
.readout{border-top:1px solid var(--rule);margin-top:.7rem;padding-top:.6rem}
.readout p{margin:.1rem 0}
.readout .at{font-size:1.12rem}
.verdict{display:inline-block;border:1px solid var(--ink);padding:0 .5em;margin-left:.4em}
.verdict.clean{background:var(--safe)}.verdict.loose{background:var(--loose)}.verdict.ringing{background:var(--ringing)}
.verdict.hot{background:var(--hot)}.verdict.sustained{background:var(--sustained);color:var(--letter-on-sustained)}
.readout .decided{color:var(--soft);min-height:3em}
.values{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(100%,15.5rem),1fr));gap:0 1.4rem;margin:.3rem 0 .7rem;font-size:.94rem}
.values div{display:flex;justify-content:space-between;gap:.6rem;border-bottom:1px solid var(--rule);padding:.14rem 0}
.values dd{text-align:right;font-variant-numeric:tabular-nums}
.values small{display:inline}.over-limit small{color:inherit}
.over-limit{color:var(--warn);font-weight:600}
.aloud{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}`;

const TRIAL = `
#trial-title:focus{outline:0}
#trial-form{border:1px solid var(--rule);padding:.25rem .9rem .7rem;margin:0;display:flex;flex-wrap:wrap;gap:.5rem 1.2rem;align-items:end}
#trial-form label{display:grid;gap:.15rem;color:var(--soft);font-size:.92rem}
#trial-form input{width:8.5rem}
#trial-form .tick{display:flex;align-items:center;gap:.5rem}
#trial-form .tick input{width:1.05rem;height:1.05rem;accent-color:var(--contour)}
#trial-words{max-width:62rem;min-height:3em}
#trial-words p{margin:.3rem 0}
#trial-words p:first-child{font-size:1.12rem;font-weight:600}
#trial-lists{margin-top:1.2rem}
#trial-lists ol{margin:.3rem 0;padding-left:2.2rem;font-variant-numeric:tabular-nums}
#trial-lists li{border-bottom:1px solid var(--rule)}
#trial-lists label{display:grid;grid-template-columns:auto minmax(0,3fr) minmax(0,2fr);gap:.1rem .7rem;align-items:baseline;padding:.45rem 0;cursor:pointer}
#trial-lists label:hover{background:var(--clean)}
#trial-lists em{color:var(--contour);font-weight:600}
.trial-views{display:grid;grid-template-columns:minmax(0,1fr) minmax(15rem,26rem);gap:1.2rem;align-items:start}
.trial-views.waiting{opacity:.3}
#trial-chart{background:var(--sheet);border:1px solid var(--rule);min-height:388px;overflow:hidden}
#trial-chart svg{width:auto}
.cursor{stroke:var(--warn);stroke-width:1.6}
.nose{background:var(--sheet);border:1px solid var(--rule);padding:.7rem .8rem}
.nose p{margin:.35rem 0 .6rem}
.caption{color:var(--soft);font-size:.92rem}
.camera-view{overflow:hidden;border:1px solid var(--ink)}
.sky{fill:var(--loose)}.field{fill:var(--clean)}.furrow{stroke:var(--clean-mark);stroke-width:1.4;fill:none}
.cloud{stroke:var(--sheet);stroke-width:5;stroke-dasharray:70 50;stroke-linecap:round;fill:none;opacity:.55}
.horizon{stroke:var(--ink);stroke-width:3;fill:none}.nose circle{fill:none;stroke:var(--warn);stroke-width:2.4}
.transport{display:grid;grid-template-columns:auto 1fr;gap:.4rem 1rem;align-items:center;margin-bottom:.7rem}
.transport .moment{grid-column:1/-1}
@media (max-width:60rem){.trial-views{grid-template-columns:minmax(0,1fr)}}
@media (max-width:40rem){#trial-lists label{grid-template-columns:auto minmax(0,1fr)}#trial-lists .why{grid-column:2}}`;

// With the switch the static pictures are redundant on screen; on paper they are all there is.
const PICTURES = `
@media screen{.live .pictures,.resting{display:none!important}}
.live .asleep{display:none}
@media print{.switch,#trial,.readout,.over{display:none!important}}`;

export const LIVE_STYLE: string = [OVER, FORMS, READOUT, TRIAL, PICTURES].join("");
