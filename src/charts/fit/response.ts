// A measured frequency response with its error, and what the model said before and says now: amplitude, phase and
// coherence, one plot each, in line above each other. Drawn is the acceleration, the rate's slope: its amplitude begins at the
// authority and falls beyond the lag, and what a hundredth of the rate's own amplitude would hide is seen.
import type { ResponseOfAxis } from "../../fit/format.js";
import { unitLabel } from "../../words/units.js";
import type { Frame, Point } from "../frame.js";
import { ink } from "../ink.js";
import { filled, type Layer, lettered, stroked } from "../layers.js";
import { mapLabels } from "../map-labels.js";
import { neatline } from "../neatline.js";
import { evenTicks, onRatios, ratioTicks, type Tick } from "../ticks.js";
import { vegaSvg } from "../vega-svg.js";
import { ERROR_OPACITY, FIT_LINES } from "./lines.js";
import { ends, type PlotAxis, plotAxes, within } from "./plot.js";

export interface ResponseSize {
  readonly width: number; // px, of each plot
  readonly letters: number; // px
}

export interface ResponsePlots {
  readonly amplitude: string;
  readonly phase: string;
  readonly coherence: string;
}

const DEGREES = 180 / Math.PI;
/** rad/s^2 per whole command in deg/s^2 per % of it. */
const DISPLAY = DEGREES / 100;
/** Of the slope of a sine before the sine itself, deg. */
const SLOPE_LEADS = 90;
const HEIGHT = Object.freeze({ amplitude: 190, phase: 150, coherence: 70 }); // px
/** Error bars of two standard deviations. */
const DEVIATIONS = 2;
/** Where less is alike than this, a point says little and must not stretch the picture. */
const COHERENT = 0.3;
const FREQUENCY = "Frequency, Hz";

export async function responsePlots(
  response: ResponseOfAxis,
  { width, letters }: ResponseSize,
): Promise<ResponsePlots> {
  const { frequency_Hz: hertz } = response;
  const across = hertz.map(onRatios);
  const d = [across[0] ?? 0, across.at(-1) ?? 1] as const;
  const ticks = ratioTicks(hertz[0] ?? 1, hertz.at(-1) ?? 10);
  const drawing = { response, across, ticks, letters };
  const frame = (height: number, p: readonly [number, number]): Frame => ({ width, height, d, p });
  const amplitude = amplitudes(drawing);
  const [rises, turns] = [onPlot(response, amplitude), onPlot(response, phases(drawing))];
  const [low, high] = ends(rises, 0.04);
  return {
    amplitude: await plot(drawing, frame(HEIGHT.amplitude, [low, high]), amplitude, {
      title: `Amplitude, ${unitLabel("deg/s^2")} per %`,
      ticks: ratioTicks(10 ** low, 10 ** high),
    }),
    phase: await plot(drawing, frame(HEIGHT.phase, ends(turns, 0.04)), phases(drawing), phaseAxis(ends(turns, 0.04))),
    coherence: await coherencePlot(drawing, frame(HEIGHT.coherence, [0, 1])),
  };
}

interface Drawing {
  readonly response: ResponseOfAxis;
  readonly across: readonly number[];
  readonly ticks: readonly Tick[];
  readonly letters: number;
}

/** What a plot of amplitude or phase shows, at each frequency. */
interface Curves {
  readonly measured: readonly number[];
  readonly low: readonly number[];
  readonly high: readonly number[];
  readonly before: readonly number[];
  readonly after: readonly number[];
}

/** Stands for an error as large as the value: far down on an axis of ratios. */
const LEAST_SHARE = 0.02;

function amplitudes({ response }: Drawing): Curves {
  const { measured, before, after, error, frequency_Hz } = response;
  const display = (rates: readonly number[]) =>
    rates.map((rate, k) => onRatios(Math.max(1e-12, DISPLAY * 2 * Math.PI * (frequency_Hz[k] ?? 0) * rate)));
  const off = (side: 1 | -1) =>
    display(
      measured.amplitude.map((value, k) => value * Math.max(LEAST_SHARE, 1 + side * DEVIATIONS * (error[k] ?? 0))),
    );
  return {
    measured: display(measured.amplitude),
    low: off(-1),
    high: off(1),
    before: display(before.amplitude),
    after: display(after.amplitude),
  };
}

function phases({ response }: Drawing): Curves {
  const { measured, before, after, error } = response;
  const slope = (turns: readonly number[]) => turns.map((turn) => turn + SLOPE_LEADS);
  const off = (side: 1 | -1) =>
    slope(measured.phase_deg).map((value, k) => value + side * DEVIATIONS * DEGREES * Math.min(1, error[k] ?? 0));
  return {
    measured: slope(measured.phase_deg),
    low: off(-1),
    high: off(1),
    before: slope(before.phase_deg),
    after: slope(after.phase_deg),
  };
}

/** The values that a plot must hold: the model's, and what was measured with some coherence. */
const onPlot = ({ coherence }: ResponseOfAxis, { measured, before, after }: Curves): number[] => [
  ...before,
  ...after,
  ...measured.filter((_, k) => (coherence[k] ?? 0) >= COHERENT),
];

/** Quarters of a turn where they are enough. */
function phaseAxis([from, to]: readonly [number, number]): PlotAxis {
  const step = to - from > 150 ? 90 : 45;
  const first = Math.ceil(from / step);
  const ticks = Array.from({ length: Math.max(0, Math.floor(to / step) - first + 1) }, (_, k) => (first + k) * step);
  return {
    title: "Phase, \u00b0",
    ticks: ticks.map((at) => ({ at, text: String(at).replace("-", "\u2212") })),
  };
}

function plot({ across, ticks, letters }: Drawing, frame: Frame, curves: Curves, up: PlotAxis): Promise<string> {
  const line = (values: readonly number[]): Point[] =>
    within(
      frame,
      values.map((value, k) => [across[k] ?? 0, value] as const),
    );
  const [before, after] = [line(curves.before), line(curves.after)];
  const named = [
    { text: "fitted", lines: [after], set: "beside" as const, size: letters },
    { text: "model before", lines: [before], set: "beside" as const, size: letters },
  ];
  const layer: Layer[] = [
    plotAxes(frame, { title: "", ticks }, up),
    filled(frame, [[...line(curves.low), ...line(curves.high).reverse()]], ink("ink"), ERROR_OPACITY),
    stroked(frame, [line(curves.measured)], FIT_LINES.measured),
    stroked(frame, [before], FIT_LINES.before),
    stroked(frame, [after], FIT_LINES.after),
    ...lettered(mapLabels(frame, named, [line(curves.measured)], []), {
      size: letters,
      role: "ink",
      halo: "sheet",
      bold: true,
    }),
    ...neatline(frame, { d: [], p: [] }),
  ];
  return vegaSvg({ width: frame.width, height: frame.height, layer });
}

function coherencePlot({ response, across, ticks }: Drawing, frame: Frame): Promise<string> {
  const line = response.coherence.map((value, k): Point => [across[k] ?? 0, value]);
  const ground = [...line, [frame.d[1], 0] as const, [frame.d[0], 0] as const];
  const layer: Layer[] = [
    plotAxes(frame, { title: FREQUENCY, ticks }, { title: "Coherence", ticks: evenTicks(0, 1, 2) }),
    filled(frame, [ground], ink("tint-2")),
    stroked(frame, [line], { role: "ink", width: 1.4 }),
    ...neatline(frame, { d: [], p: [] }),
  ];
  return vegaSvg({ width: frame.width, height: frame.height, layer });
}
