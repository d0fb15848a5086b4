// The page's data unpacked: the part of the map that the charts need.
import { MEASURE_IDS, type Verdict } from "../base/measures.js";
import type { GroundAxis } from "../charts/crossings.js";
import type { AxisMap, Grid } from "../map/format.js";
import type { PageAxis, PageData } from "../page-data/data.js";
import type { Axis } from "../words/axes.js";

/** One axis as it can be drawn and asked about. */
export interface PageMapAxis extends GroundAxis, Pick<AxisMap, "measures" | "absent" | "decidedBy"> {
  /** dB and deg; null: unknown, or no rise of gain destabilises. */
  readonly margins: Pick<AxisMap["margins"], "gainUp" | "phase"> | null;
  /** In how many draws each point is safe; only where the map was made with draws. */
  readonly safeDraws?: Grid<number>;
}

export interface PageMap extends Omit<PageData, "axes"> {
  readonly axes: Readonly<Record<Axis, PageMapAxis>>;
  readonly tunes: Readonly<Record<Axis, Pick<PageAxis, "start" | "pinned" | "theory">>>;
}

/** The map in a page; null where the page holds none. */
export function readPageMap(page: Document): PageMap | null {
  const text = page.getElementById("map-data")?.textContent;
  return text ? pageMapOf(JSON.parse(text) as PageData) : null;
}

export function pageMapOf(data: PageData): PageMap {
  const { roll, pitch } = data.axes;
  return { ...data, axes: { roll: axisOf(roll), pitch: axisOf(pitch) }, tunes: { roll, pitch } };
}

const VERDICT_OF: Readonly<Record<string, Verdict>> = {
  s: "sustained",
  h: "hot",
  r: "ringing",
  l: "loose",
  c: "clean",
};

function axisOf({
  grid,
  verdict,
  absent,
  measures,
  decidedBy,
  gainUp,
  phase,
  sustained,
  safeDraws,
}: PageAxis): PageMapAxis {
  const letters = verdict.map((row) => [...row]);
  const digits = (rows: readonly string[] | undefined): Grid<number> =>
    rows === undefined
      ? letters.map((row) => row.map(() => 0))
      : rows.map((row) => [...row].map((digit) => Number.parseInt(digit, 36)));
  return {
    grid,
    verdict: letters.map((row) => row.map((letter) => VERDICT_OF[letter.toLowerCase()] ?? "sustained")),
    safe: letters.map((row) => row.map((letter) => letter !== letter.toLowerCase())),
    decidedBy,
    measures,
    absent: Object.fromEntries(MEASURE_IDS.map((id) => [id, digits(absent[id])])) as AxisMap["absent"],
    margins: { gainUp, phase },
    boundary: { sustained },
    ...(safeDraws === undefined ? {} : { safeDraws }),
  };
}
