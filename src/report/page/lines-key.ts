// The legend of the line charts: one and the same above the chapter on throttle and pack and above that on theory.
import { HARD_SIGN, THROTTLE_SIGNS } from "../../charts/line-signs.js";
import { areaSwatch, lineSwatch, theorySwatch } from "../../charts/swatches.js";
import type { StabilityMap } from "../../map/format.js";
import { AXES } from "../../words/axes.js";
import { html, type Piece, raw } from "./html.js";

const entry = (sign: string, title: string, meaning: string): Piece =>
  html`<li>${raw(sign)}<span><b>${title}</b> ${meaning}</span></li>`;

const RANKS = Object.freeze(["Highest throttle", "Next lower", "Lower still", "All below"]);

export function linesKey(map: StabilityMap): Piece {
  const hasTheory = AXES.some((name) => map.axes[name].boundary.theory !== undefined);
  const most = Math.min(THROTTLE_SIGNS.length, throttlesOf(map));
  const lines = THROTTLE_SIGNS.slice(0, most).map((sign, rank) =>
    entry(
      lineSwatch(sign),
      RANKS[rank] ?? "",
      rank === 0 ? "Sustained boundary there, or after a nudge at the worst." : "",
    ),
  );
  const theory = hasTheory
    ? [
        entry(lineSwatch(HARD_SIGN), "Hard manoeuvres", "The worst of them, at any throttle and on any pack."),
        entry(theorySwatch(), "Theory", "Where a small nudge stops dying out, from equations alone."),
      ]
    : [];
  return html`<div class="key"><ul aria-label="Lines of these charts">
${[...lines, ...theory, entry(areaSwatch("clean"), "Tinted", "Stable in every script, at every throttle, on every pack.")]}
</ul></div>`;
}

/** The most throttles of one condition and script on an axis. */
function throttlesOf({ axes }: StabilityMap): number {
  const counts = AXES.flatMap((name) => {
    const each = new Map<string, Set<number>>();
    for (const { condition, script, throttle } of axes[name].boundary.byVariant) {
      const key = `${condition} ${script}`;
      each.set(key, (each.get(key) ?? new Set()).add(throttle));
    }
    return [...each.values()].map(({ size }) => size);
  });
  return Math.max(1, ...counts);
}
