// A gain in a page: the controller's own number in large digits and ours beside it in small, or ours alone.
import { endText, placeText, settingText } from "../../map/gain-text.js";
import type { OwnScale } from "../../map/own-scale.js";
import { unitLabel } from "../../words/units.js";
import { html, type Piece } from "./html.js";

type Gain = "p" | "i" | "d";
type TextOf = typeof settingText;

const pieceBy =
  (text: TextOf) =>
  (own: OwnScale | null, gain: Gain, value: number): Piece => {
    const known = own?.[gain] != null;
    return html`${text(own, gain, value)}${known ? html` <small class="ours">${text(null, gain, value)}</small>` : ""}`;
  };

/** A gain to set. */
export const settingPiece: (own: OwnScale | null, gain: Gain, value: number) => Piece = pieceBy(settingText);

/** Where something begins or ends as a gain moves. */
export const endPiece: (own: OwnScale | null, gain: Gain, value: number) => Piece = pieceBy(endText);

/** "P 2356, D 1916" with both in small: "(9.43 and 0.958)". */
export function placePiece(
  { own, units }: { readonly own: OwnScale | null; readonly units: { readonly p: string; readonly d: string } },
  { p, d }: { readonly p: number; readonly d: number },
): Piece {
  const [pUnit, dUnit] = [unitLabel(units.p), unitLabel(units.d)];
  const ours = html` <small class="ours">${settingText(null, "p", p)}\u00a0${pUnit}, ${settingText(null, "d", d)}\u00a0${dUnit}</small>`;
  return html`${placeText(own, { p, d })}${own === null ? "" : ours}`;
}

/** Head of a column of gains: "D", the unit in small. */
export const gainTitle = (own: OwnScale | null, gain: Gain, unit: string, title = gain.toUpperCase()): Piece =>
  own?.[gain] == null
    ? html`${title}, ${unitLabel(unit)}`
    : html`${title} <small class="ours">${unitLabel(unit)}</small>`;
