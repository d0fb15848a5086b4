// The sustained boundary over the draws, P over D, as the model said before the fit and as it says now, with the tune flown.
import type { FittedAxis } from "../../fit/format.js";
import { GAIN_UNITS } from "../../map/display-units.js";
import { scaleOfTune } from "../../words/fit/own-gains.js";
import { gainHead } from "../../words/own-words.js";
import { NARROW, ownTicks } from "../axes-layer.js";
import { bandOf } from "../confidence-lines.js";
import type { Frame } from "../frame.js";
import { ink } from "../ink.js";
import { filled, type Layer, lettered, stroked } from "../layers.js";
import { mapLabels } from "../map-labels.js";
import { neatline } from "../neatline.js";
import { pinnedMark } from "../pinned-mark.js";
import { evenTicks } from "../ticks.js";
import { vegaSvg } from "../vega-svg.js";
import { BAND_OPACITIES, FIT_LINES } from "./lines.js";
import { LABELS, type PlotAxis, plotAxes } from "./plot.js";

export interface BandSize {
  readonly width: number; // px, of the plot
  readonly height: number;
  readonly letters: number;
}

const ROOM = 1.06; // above the highest number
const MARK = 8; // px

export function bandSvg({ band, tune }: Pick<FittedAxis, "band" | "tune">, size: BandSize): Promise<string> {
  const frame = frameOf({ band, tune }, size);
  const [before, after] = [bandOf(frame, band.before), bandOf(frame, band.after)];
  const named = [
    { text: "fitted", lines: after.middle, set: "beside" as const, size: size.letters },
    { text: "model before", lines: before.middle, set: "beside" as const, size: size.letters },
  ];
  const own = scaleOfTune(tune);
  const layer: Layer[] = [
    plotAxes(
      frame,
      gainAxis("D", frame.d, size.width < NARROW ? 5 : 8, own?.d ?? null),
      gainAxis("P", frame.p, 6, own?.p ?? null),
      own === null ? LABELS.usual : LABELS.own,
    ),
    ...before.area.map((ring) => filled(frame, [ring], ink("soft"), BAND_OPACITIES.before)),
    ...after.area.map((ring) => filled(frame, [ring], ink("contour"), BAND_OPACITIES.after)),
    stroked(frame, before.middle, FIT_LINES.before),
    stroked(frame, after.middle, FIT_LINES.after),
    ...lettered(mapLabels(frame, named, [...before.low, ...after.high], []), {
      size: size.letters,
      role: "ink",
      halo: "sheet",
      bold: true,
    }),
    ...(tune === null ? [] : pinnedMark(frame, [tune.d, tune.p], MARK)),
    ...neatline(frame, { d: [], p: [] }),
  ];
  return vegaSvg({ width: size.width, height: size.height, layer });
}

/** In the controller's own numbers where they are known; the scale itself is in display units. */
function gainAxis(
  letter: "P" | "D",
  [from, to]: readonly [number, number],
  most: number,
  scale: number | null,
): PlotAxis {
  const unit = letter === "P" ? GAIN_UNITS.p : GAIN_UNITS.d;
  if (scale === null) return { title: gainHead(letter, null, unit), ticks: evenTicks(from, to, most) };
  return {
    title: gainHead(letter, scale, unit, "own, "),
    ticks: ownTicks([from, to], scale, most),
  };
}

function frameOf({ band, tune }: Pick<FittedAxis, "band" | "tune">, { width, height }: BandSize): Frame {
  const all = [...band.before, ...band.after];
  const values = (of: (typeof all)[number]) => [of.low, of.middle, of.high].filter((value) => value !== null);
  const most = [...all.flatMap(values), tune?.p ?? 0].reduce((top, value) => Math.max(top, value), 0);
  const ds = [...all.map(({ d }) => d), ...(tune === null ? [] : [tune.d])];
  const [from, to] = [Math.min(...ds), Math.max(...ds)];
  return { width, height, d: [from, to > from ? to : from + 1], p: [0, most === 0 ? 1 : ROOM * most] };
}
