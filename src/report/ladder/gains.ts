// The gains of a step as the pilot enters them: the controller's own numbers where the model declares a scale, display units
// in small print.
import type { LadderTune } from "../../map/ladder-format.js";
import { toThreeDigits } from "../../words/numbers.js";
import { html, type Piece } from "../page/html.js";

/** Gain values of one axis: "18" with "3.6" beneath, or display units alone. */
export function gainCells({ p, d, own }: LadderTune): Piece {
  const cell = (letter: string, display: number, controller: number | null) =>
    html`<span class="set"><i>${letter}</i> <b>${toThreeDigits(controller ?? display)}</b>${controller === null ? "" : html` <small>${toThreeDigits(display)}</small>`}</span>`;
  return html`${cell("P", p, own?.p ?? null)}${cell("D", d, own?.d ?? null)}`;
}
