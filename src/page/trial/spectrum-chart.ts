// What is left as a trial ends, over frequency: the rotors' lines stand on bands of their own, the loop's is named.
import { numberAt } from "../../base/at.js";
import { ink } from "../../charts/ink.js";
import { toThreeDigits, withUnit } from "../../words/numbers.js";
import { draw } from "../dom.js";
import { foot, rule, stroke, text, textOver } from "./chart-parts.js";
import { ticks } from "./scale.js";
import type { Spectrum } from "./spectrum.js";

const DEGREES = 180 / Math.PI;
const [LEFT, RIGHT, TOP, PLOT, BOTTOM] = [52, 24, 20, 96, 26]; // px
const HEIGHT = TOP + PLOT + BOTTOM;
const LEAST_SHOWN = 120; // Hz
const BEYOND = 1.25; // times the highest line

/** For a width in px. */
export function spectrumChart({ step, amplitude, lines, loop }: Spectrum, width: number): SVGSVGElement {
  const wanted = Math.max(LEAST_SHOWN, BEYOND * Math.max(loop.strongest, ...lines.map(({ to }) => to)));
  const shown = amplitude.subarray(0, Math.max(2, Math.min(amplitude.length, Math.ceil(wanted / step))));
  const high = (shown.length - 1) * step;
  const right = Math.max(LEFT + 120, width - RIGHT);
  const x = (hertz: number) => LEFT + (Math.min(hertz, high) / high) * (right - LEFT);
  const top =
    DEGREES *
    Math.max(
      shown.reduce((most, value) => Math.max(most, value), 0),
      1e-9,
    );
  const y = (degrees: number) => TOP + PLOT - (degrees / top) * PLOT;
  const points = Array.from(shown, (value, k) => `${x(k * step).toFixed(1)},${y(DEGREES * value).toFixed(1)}`);
  const bands = lines.filter(({ from }) => from < high);
  const peak = x(loop.strongest);
  const anchor = peak > LEFT + (right - LEFT) / 2 ? "end" : "start";
  return draw(
    "svg",
    { viewBox: `0 0 ${width} ${HEIGHT}`, width, height: HEIGHT, "aria-hidden": "true" },
    ...bands.map(({ from, to }) =>
      draw("rect", { x: x(from), y: TOP, width: Math.max(2, x(to) - x(from)), height: PLOT, fill: ink("tint-1") }),
    ),
    ...ticks([0, top], 3).flatMap((value) => [
      rule(LEFT, right, y(value)),
      text(LEFT - 6, y(value) + 4, toThreeDigits(value), "end", "soft"),
    ]),
    text(LEFT, TOP - 7, "left of the rate at the end, \u00b0/s, by frequency", "start", "ink"),
    stroke(`M${points.join("L")}`, { role: "contour", width: 1.6, dash: "" }),
    ...bands
      .slice(0, 1)
      .map(({ from, to }) => textOver("tint-1", x((from + to) / 2), TOP + 14, "rotors", "middle", "ink")),
    textOver(
      "sheet",
      peak + (anchor === "end" ? -7 : 7),
      y(DEGREES * numberAt(amplitude, Math.round(loop.strongest / step))) + 12,
      `loop, ${withUnit(loop.strongest, "Hz")}`,
      anchor,
      "contour",
    ),
    ...foot(x, [0, high], TOP + PLOT, "Hz"),
  );
}
