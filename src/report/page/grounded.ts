// What stands above everything else where an axis has no tune to climb to: not to fly, and why.
import type { StabilityMap } from "../../map/format.js";
import { groundedAxes, WHY_GROUNDED } from "../../words/grounded-words.js";
import { html, type Piece } from "./html.js";

/** "pitch has no tune to climb to"; null where the craft may fly the climb. */
export function groundedTitle(map: StabilityMap): string | null {
  const axes = groundedAxes(map).map(({ axis }) => axis);
  if (axes.length === 0) return null;
  return axes.length === 1
    ? `${axes[0]} has no tune to climb to`
    : `neither ${axes.join(" nor ")} has a tune to climb to`;
}

/** In large letters; nothing where the craft may fly the climb. */
export function groundedNotice(map: StabilityMap): Piece | string {
  const title = groundedTitle(map);
  if (title === null) return "";
  const reasons = groundedAxes(map).flatMap((one) => one.reasons);
  return html`<section class="grounded" aria-labelledby="grounded">
<h2 id="grounded"><strong>Do not fly</strong> ${title}</h2>
<p>${WHY_GROUNDED}</p>
<ul>${reasons.map((reason) => html`<li>${reason}</li>`)}</ul>
</section>`;
}

/** Where the climb of the other axis is shown all the same. */
export const groundedLine = (map: StabilityMap): Piece | string => {
  const title = groundedTitle(map);
  return title === null ? "" : html`<p class="lead"><strong>Do not fly it: ${title}.</strong></p>`;
};

export const GROUNDED_STYLE = `
.grounded{border:.45rem solid var(--warn);background:var(--sheet);padding:.7rem 1.1rem;margin:1rem 0}
.grounded h2{font-size:1.5rem;border:0;margin:0}
.grounded h2 strong{display:block;font-size:clamp(2.6rem,9vw,4.4rem);line-height:1;color:var(--warn);text-transform:uppercase}
.grounded p,.grounded li{max-width:62rem;font-size:1.05rem;padding:.15rem 0}`;
