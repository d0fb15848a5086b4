// A table wider than the screen scrolls by itself, with the keyboard too, and the page stays put.
import { html, type Piece } from "./html.js";

export const scrolling = (label: string, table: Piece): Piece =>
  html`<section class="scroll" aria-label="${label}" tabindex="0">${table}</section>`;
