// The part of a log that the fit did not see: what the fitted model predicts over what was measured.
import type { KeptOut } from "../../fit/format.js";
import { unitLabel } from "../../words/units.js";
import type { Frame, Point } from "../frame.js";
import { type Layer, stroked } from "../layers.js";
import { neatline } from "../neatline.js";
import { evenTicks } from "../ticks.js";
import { vegaSvg } from "../vega-svg.js";
import { FIT_LINES } from "./lines.js";
import { ends, plotAxes } from "./plot.js";

const HEIGHT = 230; // px

/** What was measured is drawn broad, so that the line over it leaves its edges to be seen. */
export const BROAD = Object.freeze({ role: "clean-mark", width: 5 } as const);

export function keptOutSvg({ time_s: time, measured_dps, predicted_dps }: KeptOut, width: number): Promise<string> {
  const frame: Frame = {
    width,
    height: HEIGHT,
    d: [time[0] ?? 0, time.at(-1) ?? 1],
    p: ends([...measured_dps, ...predicted_dps], 0.06),
  };
  const line = (values: readonly number[]): Point[] => values.map((value, k) => [time[k] ?? 0, value]);
  const most = width < 400 ? 5 : 8;
  const layer: Layer[] = [
    plotAxes(
      frame,
      { title: "Time in the log, s", ticks: evenTicks(...frame.d, most) },
      { title: `Rate, ${unitLabel("deg/s")}`, ticks: evenTicks(...frame.p, 6) },
    ),
    stroked(
      frame,
      [
        [
          [frame.d[0], 0],
          [frame.d[1], 0],
        ],
      ],
      { role: "rule", width: 1 },
    ),
    stroked(frame, [line(measured_dps)], BROAD),
    stroked(frame, [line(predicted_dps)], { ...FIT_LINES.after, width: 1.6 }),
    ...neatline(frame, { d: [], p: [] }),
  ];
  return vegaSvg({ width, height: HEIGHT, layer });
}
