// The line under a page's title where its map was changed after it was made.
import type { StabilityMap } from "../../map/format.js";
import { unsealedWords } from "../../words/unsealed-words.js";
import { html, type Piece } from "./html.js";

export function unsealedLine(map: StabilityMap): Piece | string {
  const words = unsealedWords(map);
  return words === null ? "" : html`<p class="sub unsealed"><strong>${words}</strong></p>`;
}
