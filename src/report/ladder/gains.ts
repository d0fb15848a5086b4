// The gains of a step as they are dialled in: the controller's own numbers where the model declares them, ours beside.
import type { LadderTune } from "../../map/ladder-format.js";
import { three } from "../numbers.js";
import { html, type Piece } from "../page/html.js";

/** Gain values of one axis: "18" with "3.6" beneath, or ours alone. */
export function gainCells({ p, d, own }: LadderTune): Piece {
  const cell = (letter: string, ours: number, theirs: number | null) =>
    html`<span class="set"><i>${letter}</i> <b>${three(theirs ?? ours)}</b>${theirs === null ? "" : html` <small>${three(ours)}</small>`}</span>`;
  return html`${cell("P", p, own?.p ?? null)}${cell("D", d, own?.d ?? null)}`;
}
