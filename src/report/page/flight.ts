// The place where the page's script flies single trials: complete in its markup, empty and hidden until it does.
import type { StabilityMap } from "../../map/format.js";
import { spoken } from "../units.js";
import { html, type Piece } from "./html.js";

/** What the section says where no script runs. */
const WITHOUT =
  "With scripts on, any point of the map can be simulated here, seen and heard; the climb below shows what matters most without them.";

export function flight(map: StabilityMap): Piece {
  const { p, d } = map.grid.units;
  return html`
<p class="lead asleep">${WITHOUT}</p>
<section id="flight" aria-labelledby="fly" hidden>
<h2 id="fly" tabindex="-1">See and hear it</h2>
<p class="lead">One trial of any point, carried out in this page by the very simulation that made the map, with the same air and
noise. Choose a point on a map above, or write gains here.</p>
<fieldset id="fly-form">
<legend>The trial</legend>
<label>Axis <select id="fly-axis"><option value="roll">Roll</option><option value="pitch">Pitch</option></select></label>
<label>P, ${spoken(p)} <input id="fly-p" type="number" min="0" step="any" value="0"></label>
<label>D, ${spoken(d)} <input id="fly-d" type="number" min="0" step="any" value="0"></label>
<label>Manoeuvre <select id="fly-script"><option value="">None</option></select></label>
<label>Under <select id="fly-level"><option value="">None</option></select></label>
</fieldset>
<p id="fly-ask" hidden>This trial takes many more steps than most and would keep the browser busy for a while.
<button id="fly-go" type="button">Simulate it</button></p>
<p id="fly-words" role="status"></p>
<div class="flown">
<div id="fly-chart"></div>
<div class="nose">
<div id="fly-camera"></div>
<p class="caption">The horizon as the camera in the nose would see it.</p>
<div class="transport">
<button id="fly-play" type="button">Play</button>
<label>Pace <select id="fly-pace"><option value="0.25">a quarter</option><option value="1">real time</option></select></label>
<label class="moment">Moment <input id="fly-time" type="range" min="0" max="1" step="0.001" value="0"></label>
</div>
<p id="fly-still" hidden>Your system asks for less motion, so nothing moves by itself: use the slider.</p>
<button id="fly-sound" type="button">Hear the motors</button>
</div>
</div>
</section>`;
}
