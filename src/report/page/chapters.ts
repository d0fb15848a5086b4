// The page's chapters: what a pilot needs at the field comes first and stays open; what an engineer asks folds away behind
// headings that say what is in them.
import type { StabilityMap } from "../../map/format.js";
import type { Sheet } from "../../sheet/format.js";
import { AXES } from "../../words/axes.js";
import { hasFirstFlight } from "./first-flight.js";
import { html, type Piece } from "./html.js";

interface Chapter {
  readonly id: string;
  readonly title: string;
  /** What stands in it, of one that is folded. */
  readonly holds?: string;
}

const CHAPTERS: readonly Chapter[] = [
  { id: "start", title: "Start" },
  { id: "cautions", title: "Cautions" },
  { id: "first-flight", title: "First flight" },
  { id: "ladder", title: "Ladder" },
  { id: "map", title: "Map" },
  { id: "trial", title: "See and hear it" },
  { id: "strips", title: "Yaw and I", holds: "which yaw P and which I pass, gain by gain" },
  { id: "sure", title: "How sure", holds: "the start in the draws, the boundary's band, what to measure first" },
  { id: "throttle", title: "Throttle and pack", holds: "the boundary at each throttle and on each pack, hover" },
  { id: "room", title: "Room", holds: "how far each gain may move from the start, and what it meets" },
  { id: "expect", title: "What to expect", holds: "overshoot, settling and the rest at the start, with their limits" },
  {
    id: "theory",
    title: "Against theory",
    holds: "the simulated boundary over the linear loop's, and what each number moves",
  },
  { id: "sheet", title: "Sheet", holds: "mass, inertia, thrust, lags and delays of the model, doubts about it" },
  { id: "assumed", title: "Assumed", holds: "what the model and the sweep left open" },
  { id: "provenance", title: "Provenance", holds: "digests, and the command that makes this map again" },
];

/** The chapter that needs the script. */
const LIVE = "trial";

export const chaptersOf = (map: StabilityMap, live: boolean, sheet: Sheet | null): readonly Chapter[] =>
  CHAPTERS.filter(
    ({ id }) =>
      (id !== LIVE || live) &&
      (id !== "sure" || map.uncertainty !== undefined) &&
      (id !== "sheet" || sheet !== null) &&
      (id !== "strips" || map.strips !== undefined) &&
      (id !== "ladder" || map.ladder !== undefined) &&
      (id !== "first-flight" || hasFirstFlight(map)) &&
      (id !== "theory" || AXES.some((name) => map.axes[name].boundary.theory !== undefined)),
  );

/** Beside the page where there is room, else above it. */
export const contents = (chapters: readonly Chapter[]): Piece => {
  const link = ({ id, title }: Chapter) =>
    html`<li${id === LIVE ? html` data-live hidden` : ""}><a href="#${id}">${title}</a></li>`;
  return html`<nav class="contents" aria-label="Chapters"><details><summary>Chapters</summary><ul>${chapters.map(link)}</ul></details></nav>`;
};

/** A chapter of these as it is, or folded where the list says what is in it; nothing where the page has no such chapter. */
export function chapter(chapters: readonly Chapter[], id: string, section: Piece | string): Piece | string {
  const found = chapters.find((one) => one.id === id);
  if (found?.holds === undefined) return section;
  return html`<details class="chapter"><summary><b>${found.title}</b> <small>${found.holds}</small></summary>
${section}
</details>`;
}

export const CHAPTERS_STYLE = `
.chapter{border-top:1px solid var(--rule);padding:.45rem 0}
section+.chapter{margin-top:2.2rem;border-top:3px double var(--rule)}
.chapter>summary{color:var(--contour);cursor:pointer;padding:.3rem 0}
.chapter>summary:focus-visible{outline:3px solid var(--contour);outline-offset:2px}
.chapter>summary b{font:600 1.25rem/1.3 var(--serif)}
.chapter>summary small{display:inline;font-size:.95rem}
.chapter>section{margin:.3rem 0 1.4rem}
.chapter>section>h2:first-of-type{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
@media screen and (min-width:88rem){@supports selector(::details-content){
body{display:grid;grid-template-columns:9.5rem minmax(0,1fr);column-gap:2rem}
.masthead{grid-column:1/-1}main,footer{grid-column:2}
.contents{grid-area:2/1;position:sticky;top:1.2rem;align-self:start;padding-top:.6rem}
.contents ul{display:block}}}
@media (max-width:38rem){.chapter>summary small{display:block}}
@media print{.chapter>summary{display:none}.chapter{border:0;padding:0}
.chapter::details-content{content-visibility:visible;display:block}
.chapter>section>h2:first-of-type{position:static;width:auto;height:auto;clip-path:none}}`;
