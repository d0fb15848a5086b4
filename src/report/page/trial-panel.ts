// The section in which the page's script shows single trials: its markup is complete, but hidden until the script runs.
import type { StabilityMap } from "../../map/format.js";
import { ownScale } from "../../map/own-scale.js";
import { gainHead } from "../../words/own-words.js";
import { html, type Piece } from "./html.js";

/** What the section says where no script runs. */
const WITHOUT_SCRIPT =
  "With scripts on, any point of the map can be simulated here, seen and heard; the climb below shows what matters most without them.";

export function trialPanel(map: StabilityMap): Piece {
  const { p, d } = map.units;
  const own = ownScale(map);
  return html`
<p class="lead asleep">${WITHOUT_SCRIPT}</p>
<section id="trial" aria-labelledby="trial-title" hidden>
<h2 id="trial-title" tabindex="-1">See and hear it</h2>
<p class="lead">The trials of any point, carried out in this page by the very simulation that made the map, with the same air and
noise. Choose a point on a map above, or write gains here: it opens with the trial that decided it.</p>
<fieldset id="trial-form">
<legend>Point and trial</legend>
<label>Axis <select id="trial-axis"><option value="roll">Roll</option><option value="pitch">Pitch</option></select></label>
<label>${gainHead("P", own?.p ?? null, p)} <input id="trial-p" type="number" min="0" step="any" value="0"></label>
<label>${gainHead("D", own?.d ?? null, d)} <input id="trial-d" type="number" min="0" step="any" value="0"></label>
<label>Manoeuvre <select id="trial-script"><option value="">None</option></select></label>
<label>Under <select id="trial-level"><option value="">None</option></select></label>
<label class="tick"><input id="trial-stay" type="checkbox"> Stay with this manoeuvre when the gains change</label>
</fieldset>
<p id="trial-ask" hidden>This trial takes many more steps than most and would keep the browser busy for a while.
<button id="trial-go" type="button">Simulate it</button></p>
<div id="trial-words" role="status"></div>
<div class="trial-views" id="trial-views">
<div id="trial-chart"></div>
<div class="nose">
<div id="trial-camera"></div>
<p class="caption">The horizon as the camera in the nose would see it.</p>
<div class="transport">
<button id="trial-play" type="button">Play</button>
<label>Pace <select id="trial-pace"><option value="0.25">a quarter</option><option value="1">real time</option></select></label>
<label class="moment">Moment <input id="trial-time" type="range" min="0" max="1" step="0.001" value="0"></label>
</div>
<p id="trial-still" hidden>Your system asks for less motion, so nothing moves by itself: use the slider.</p>
<div class="transport">
<button id="trial-sound" type="button">Hear the motors</button>
<label>Loudness <input id="trial-loudness" type="range" min="0" max="100" step="5" value="50"></label>
</div>
<p id="trial-listen" class="caption"></p>
</div>
</div>
<div id="trial-lists">
<h3>All trials of this point, worst first</h3>
<p id="trial-list-words"></p>
<p id="trial-list-ask" hidden><button id="trial-list-go" type="button">Simulate them</button></p>
<ol id="trial-list"></ol>
<details id="trial-list-fold" hidden><summary id="trial-list-more">The others</summary><ol id="trial-list-rest"></ol></details>
</div>
</section>`;
}
