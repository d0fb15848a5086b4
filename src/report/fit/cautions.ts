// Safety advice for flying to take a log. Common practice, no source; local rules and qualified people come first.
import { html, type Piece } from "../page/html.js";

const CAUTIONS: readonly (readonly [lead: string, rest: string])[] = [
  [
    "Never keep an oscillation up on purpose.",
    "No log is worth it. One that happened by itself may be entered; nobody asks for another.",
  ],
  [
    "Land at the first wobble that does not die out.",
    "Throttle down gently, land, and go back to the last calm gains.",
  ],
  ["Open space, nobody near.", "Fly high and clear, away from people, animals and traffic; watchers stand behind you."],
  ["Props off on the bench.", "Set up logging and read the log out with every propeller off."],
  ["Pack off before you touch a propeller.", "Walk up only to a disarmed craft, and unplug the pack first."],
  ["Hot motors end the flight.", "Feel them after each pack: too hot to keep a finger on, stop, less D."],
  ["Treat the pack with care.", "No swollen or dented pack; charge it attended, on a surface that cannot burn."],
  ["A model is an estimate.", "Fitted or not, it knows your craft only as its file and this flight describe it."],
  ["Local rules come first.", "So does the word of the qualified people at your field: ask them to watch."],
];

export const cautions = (): Piece => html`
<section class="cautions" aria-labelledby="cautions">
<h2 id="cautions">Before you fly for a log</h2>
<ul>${CAUTIONS.map(([lead, rest]) => html`<li><strong>${lead}</strong> ${rest}</li>`)}</ul>
</section>`;
