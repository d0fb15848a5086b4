// Yaw and I on both sides: the gain to take and the range that passes.
import type { Drift, StripSide } from "../../compare/format.js";
import { signed } from "../../words/drift-words.js";
import { toThreeDigits } from "../../words/numbers.js";
import { html, type Piece } from "../page/html.js";
import { scrolling } from "../page/scrolling.js";

/** Nothing where a side's sweep judged neither. */
export function stripsTable({ strips = [] }: Drift): Piece | string {
  if (strips.length === 0) return "";
  return html`
<section aria-labelledby="strips">
<h2 id="strips">Yaw and I</h2>
<p class="lead">P of yaw and I, judged along a line at each side's own starting tunes. A model's own gain stays where it passes.</p>
${scrolling(
  "Yaw and I on both sides",
  html`<table>
<thead><tr><th scope="col">Gain</th><th scope="col" class="text">Before</th><th scope="col" class="text">Now</th><th scope="col">Gain moved</th><th scope="col">Upper end moved</th></tr></thead>
<tbody>${strips.map(
    ({ gain, before, after, choicePercent, toPercent }) =>
      html`<tr><th scope="row">${gain}</th><td class="text">${side(before)}</td><td class="text">${side(after)}</td><td>${moved(choicePercent)}</td><td>${moved(toPercent)}</td></tr>`,
  )}</tbody>
</table>`,
)}
</section>`;
}

const moved = (percent: number | null): string => (percent === null ? "" : `${signed(percent)}\u00a0%`);

function side({ declared, choice, range }: StripSide): string {
  const own = toThreeDigits(declared);
  if (choice === null || range === null) return `${own} fails, none passes`;
  const passes = `${toThreeDigits(range.from)} to ${toThreeDigits(range.to)} pass`;
  return choice === declared ? `${own}; ${passes}` : `${toThreeDigits(choice)} instead of ${own}; ${passes}`;
}
