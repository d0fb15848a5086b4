// What the page's script is given of a map's draws: counts of points, and each draw in words with its boundary.
import { at } from "../base/at.js";
import type { DrawOfMap } from "../map/confidence-format.js";
import type { StabilityMap } from "../map/format.js";
import { AXES, AXIS_TITLES, type Axis } from "../words/axes.js";
import { failureWords, startShareWords } from "../words/confidence-words.js";
import { drawnWords } from "../words/draw-words.js";
import { printable } from "../words/printable.js";

export interface PageDraws {
  /** Fraction; how many draws the counts of points are of. */
  readonly confidence: number;
  readonly of: number;
  /** "58 of 64 draws that did not choose it (81 to 96 %)"; null where there is no start. */
  readonly start: Readonly<Record<Axis, string | null>>;
  /** D of `boundary`, display units. */
  readonly d: Readonly<Record<Axis, readonly number[]>>;
  readonly each: readonly PageDraw[];
}

export interface PageDraw {
  /** In what it differs most from the model as it is written. */
  readonly differs: readonly string[];
  /** "Roll fails by settling time over 250 ms". */
  readonly fails: readonly string[];
  /** P per D; null: far above the grid. */
  readonly boundary: Readonly<Record<Axis, readonly (number | null)[]>>;
}

/** Null where the map was made without draws. `view` has the lines that the picture shows. */
export function pageDraws(map: StabilityMap, view: StabilityMap): PageDraws | null {
  const { uncertainty } = map;
  if (uncertainty === undefined) return null;
  const { confidence, pointDraws, spreads, draws } = uncertainty;
  const perAxis = <T>(of: (name: Axis) => T) => ({ roll: of("roll"), pitch: of("pitch") });
  const each = (draw: DrawOfMap): PageDraw => ({
    differs: printable(drawnWords(spreads, draw)),
    fails: printable(
      AXES.flatMap((name) => {
        const by = draw[name].startFailsBy;
        return by === null ? [] : [`${AXIS_TITLES[name]} fails by ${failureWords(map, by)}`];
      }),
    ),
    boundary: perAxis((name) => view.axes[name].grid.d.map((_, row) => fourDigits(at(draw[name].boundary, row)))),
  });
  return {
    confidence,
    of: pointDraws,
    start: perAxis((name) => {
      const share = map.axes[name].confidence?.start ?? null;
      return share === null ? null : startShareWords(share);
    }),
    d: perAxis((name) => view.axes[name].grid.d),
    each: draws.map(each),
  };
}

const fourDigits = (value: number | null): number | null => (value === null ? null : Number(value.toPrecision(4)));
