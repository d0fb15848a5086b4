// Safety advice for the pilot. Common practice, no source; local rules and qualified people come first.
import { html, type Piece } from "./html.js";

const CAUTIONS: readonly (readonly [lead: string, rest: string])[] = [
  ["Props off on the bench.", "Take every propeller off before the pack goes on indoors."],
  ["Open space, nobody near.", "Fly away from people, animals and traffic; keep watchers behind you."],
  [
    "Land at the first wobble that does not die out.",
    "Throttle down gently, land, and go back to the last calm gains.",
  ],
  ["Feel the motors after each flight.", "Too hot to keep a finger on: stop, less D."],
  ["Treat the pack with care.", "No swollen or dented pack; charge it attended, on a surface that cannot burn."],
  [
    "Test on a fresh pack and on a tired one.",
    "A fresh pack hits harder; a tune must hold on both. The ladder says what a tired one reads in hover.",
  ],
  [
    "This is a model's estimate.",
    "It knows your craft only as its file describes it; another propeller or a loose screw changes it.",
  ],
  [
    "Local rules come first.",
    "So does the word of the qualified people at your field: ask them to watch the first flight.",
  ],
];

export const cautions = (): Piece => html`
<section class="cautions" aria-labelledby="cautions">
<h2 id="cautions">Before you fly</h2>
<ul>${CAUTIONS.map(([lead, rest]) => html`<li><strong>${lead}</strong> ${rest}</li>`)}</ul>
</section>`;
