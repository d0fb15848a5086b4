// A picture of a fit in two sizes, under the line that says what it shows.
import { html, type Piece, raw } from "../page/html.js";

export interface Drawn {
  /** Pictures that stand above each other. */
  readonly wide: readonly string[];
  readonly narrow: readonly string[];
}

export function figure(title: string, words: string, { wide, narrow }: Drawn): Piece {
  const all = (size: "wide" | "narrow", pictures: readonly string[]) =>
    html`<div class="${size} plots" role="img" aria-label="${title}. ${words}">${pictures.map((one) => html`<div class="plot">${raw(one)}</div>`)}</div>`;
  return html`<figure class="axis-map">
<h3>${title}</h3>
${all("wide", wide)}
${all("narrow", narrow)}
<figcaption>${words}</figcaption>
</figure>`;
}
