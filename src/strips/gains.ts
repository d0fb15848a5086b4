// The gains of a strip: a line by equal factors, of figures that can be entered, and the model's own among them.
import { exp, ln } from "../base/elementary.js";

/** Rising, SI; two significant figures in display units, of which one is `unit`. */
export function lineOf(from: number, to: number, count: number, declared: number, unit: number): number[] {
  const step = ln(to / from) / (count - 1);
  const isApart = (gain: number) => !(gain > 0 && declared > 0) || 2 * Math.abs(ln(gain / declared)) > step;
  const rounded = Array.from(
    { length: count },
    (_, k) => unit * Number(((from * exp(k * step)) / unit).toPrecision(2)),
  );
  // The model's own takes the place of one that is nearer than half a step.
  return [...new Set([...rounded.filter(isApart), declared])].sort((a, b) => a - b);
}
