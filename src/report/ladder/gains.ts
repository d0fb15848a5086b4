// The gains of a step as the pilot enters them: the controller's own numbers where the model says what one unit is worth,
// display units in small print.
import { ownText, settingText } from "../../map/gain-text.js";
import type { LadderTune } from "../../map/ladder-format.js";
import { html, type Piece } from "../page/html.js";

/** Gain values of one axis: "2356" with "9.43" beneath, or display units alone. */
export function gainCells({ p, d, own }: LadderTune): Piece {
  const cell = (gain: "p" | "d", value: number, typed: number | null) => {
    const ours = settingText(null, gain, value);
    return html`<span class="set"><i>${gain.toUpperCase()}</i> <b>${typed === null ? ours : ownText(typed)}</b>${typed === null ? "" : html` <small>${ours}</small>`}</span>`;
  };
  return html`${cell("p", p, own?.p ?? null)}${cell("d", d, own?.d ?? null)}`;
}
