// The shift of the sustained boundary against D as a line, with the gate it must not cross and the D range that the
// gate judges.
import type { AxisDrift, ShiftAtD } from "../compare/format.js";
import { boundaryJudged } from "../compare/judge.js";
import { toThreeDigits } from "../words/numbers.js";
import { type Gains, gainAxis } from "./axes-layer.js";
import type { Frame, Point, Polyline } from "./frame.js";
import { toPixel } from "./frame.js";
import { ink } from "./ink.js";
import { filled, geometry, type Layer, lettered, stroked } from "./layers.js";
import { neatline } from "./neatline.js";
import { besideLine } from "./placement.js";
import { vegaSvg } from "./vega-svg.js";

export interface ShiftSize {
  readonly width: number; // px, of the plot
  readonly height: number;
}

const LABEL = 12; // px
const ROOM = 1.18; // the scale reaches this much further than the farthest number
const LEAST = 2; // %, on either side: rounding must not look like a shift

/** `gate` is the largest fall allowed, %; null: none. */
export async function shiftChartSvg(
  { shift, safe }: AxisDrift,
  gate: number | null,
  gains: Gains,
  size: ShiftSize,
): Promise<string> {
  const frame = frameOf(shift.perD, gate, size);
  const line = shiftRuns(shift.perD);
  const judged = new Set(boundaryJudged({ shift, safe }));
  const layer: Layer[] = [
    axes(frame, gains),
    ...judgedRuns(shift.perD, judged).flatMap((run) => judgedBand(frame, run)),
    stroked(frame, [level(frame, 0)], { role: "soft", width: 1 }),
    ...gateLayers(frame, gate),
    ...intervals(frame, shift.perD),
    stroked(frame, line, { role: "ink", width: 2.6 }),
    ...shift.perD.flatMap((one) => mark(frame, one)),
    ...neatline(frame, { d: [], p: [] }),
    ...(gate === null ? [] : gateName(frame, gate, line)),
  ];
  return vegaSvg({ ...size, layer });
}

function frameOf(perD: readonly ShiftAtD[], gate: number | null, size: ShiftSize): Frame {
  const numbers = [
    ...perD.flatMap(({ percent, interval }) => [percent ?? 0, interval?.low ?? 0, interval?.high ?? 0]),
    gate === null ? 0 : -gate,
  ];
  const ends = [ROOM * Math.min(-LEAST, ...numbers), ROOM * Math.max(LEAST, ...numbers)] as const;
  return { ...size, d: [perD[0]?.d ?? 0, perD.at(-1)?.d ?? 1], p: ends };
}

const level = (frame: Frame, percent: number): Polyline => [
  [frame.d[0], percent],
  [frame.d[1], percent],
];

/** Runs of neighbouring D that have a shift. */
function shiftRuns(perD: readonly ShiftAtD[]): Polyline[] {
  const runs: Point[][] = [[]];
  for (const { d, percent } of perD) {
    if (percent === null) runs.push([]);
    else runs.at(-1)?.push([d, percent]);
  }
  return runs.filter((run) => run.length > 1);
}

/** How the interval of a shift is drawn. */
export const SHIFT_INTERVAL = Object.freeze({ role: "soft", width: 5 } as const);

/** An upright bar at each D that has one. */
function intervals(frame: Frame, perD: readonly ShiftAtD[]): Layer[] {
  const bars = perD.flatMap(({ d, interval }): Polyline[] =>
    interval === undefined
      ? []
      : [
          [
            [d, interval.low],
            [d, interval.high],
          ],
        ],
  );
  return bars.length === 0 ? [] : [stroked(frame, bars, SHIFT_INTERVAL)];
}

/** A dot where the shift is known, a wedge where it is at least that far. */
function mark(frame: Frame, { d, percent, state }: ShiftAtD): Layer[] {
  if (percent === null) return [];
  const [x, y] = toPixel(frame, [d, percent]);
  const [half, way] = [4.5, state === "out of the grid" ? -1 : 1];
  const diamond: Point[] = [
    [x - 3.6, y],
    [x, y - 3.6],
    [x + 3.6, y],
    [x, y + 3.6],
    [x - 3.6, y],
  ];
  const wedge: Point[] = [
    [x - half, y - way * 2],
    [x + half, y - way * 2],
    [x, y + way * 7],
    [x - half, y - way * 2],
  ];
  const shape = state === "moved" || state === "closed" ? diamond : wedge;
  return [
    geometry({ type: "Polygon", coordinates: [shape] }, { fill: ink("ink"), stroke: ink("sheet"), strokeWidth: 1.2 }),
  ];
}

/** D of neighbouring lines that the gate judged. */
function judgedRuns(perD: readonly ShiftAtD[], judged: ReadonlySet<ShiftAtD>): number[][] {
  const runs: number[][] = [[]];
  for (const one of perD) {
    if (judged.has(one)) runs.at(-1)?.push(one.d);
    else runs.push([]);
  }
  return runs;
}

/** The D range of a run. */
function judgedBand(frame: Frame, judged: readonly number[]): Layer[] {
  const [first, last] = [judged[0], judged.at(-1)];
  if (first === undefined || last === undefined) return [];
  const [low, high] = frame.p;
  const [start, end]: [Point, Point] = [
    [first, low],
    [last, high],
  ];
  return first === last
    ? [stroked(frame, [[start, end]], { role: "clean", width: 8 })]
    : [filled(frame, [[start, [last, low], end, [first, high]]], ink("clean"))];
}

function gateLayers(frame: Frame, gate: number | null): Layer[] {
  return gate === null ? [] : [stroked(frame, [level(frame, -gate)], { role: "warn", width: 2, dash: [7, 4] })];
}

function gateName(frame: Frame, gate: number, lines: readonly Polyline[]): Layer[] {
  const pixels = (line: Polyline) => line.map((point) => toPixel(frame, point));
  const text = `gate: a fall of ${toThreeDigits(gate)} %`;
  const line = pixels(level(frame, -gate));
  const label = besideLine({ frame, text, size: LABEL, line, taken: [], lines: [...lines.map(pixels), line] });
  return label === null ? [] : lettered([label], { size: LABEL, role: "warn", halo: "sheet", bold: true });
}

function axes(frame: Frame, { own, units }: Gains): Layer {
  const scale = (domain: readonly [number, number]) => ({ domain: [...domain], nice: false, zero: false });
  return {
    data: { values: [{ d: frame.d[0], p: 0 }] },
    mark: { type: "point", opacity: 0 },
    encoding: {
      x: {
        field: "d",
        type: "quantitative",
        scale: scale(frame.d),
        axis: gainAxis("D", units.d, own?.d ?? null, frame.d, frame.width),
      },
      y: {
        field: "p",
        type: "quantitative",
        scale: scale(frame.p),
        axis: { title: "Shift of the boundary in P, %", tickCount: 6, labelOverlap: true },
      },
    },
  } as Layer;
}
