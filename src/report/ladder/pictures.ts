// The predicted traces of one step as small pictures, each with a text alternative.
import { ladderRow } from "../../base/script-kinds.js";
import { type TracePicture, traceSvg } from "../../charts/trace.js";
import type { StabilityMap } from "../../map/format.js";
import type { LadderManoeuvre, LadderTrial, LadderTune } from "../../map/ladder-format.js";
import { AXIS_TITLES, type Axis } from "../../words/axes.js";
import { extentOf } from "../../words/extent.js";
import { toThreeDigits, withUnit } from "../../words/numbers.js";
import { measuredWords } from "../../words/tune-words.js";
import { html, type Piece, raw } from "../page/html.js";
import type { Scales } from "./scales.js";

/** One picture per manoeuvre of the axis in the step. */
export function pictures(map: StabilityMap, scales: Scales, axis: Axis, tune: LadderTune): Piece[] {
  return tune.trials.flatMap((trial) => {
    const manoeuvre = map.ladder?.manoeuvres[trial.manoeuvre];
    return manoeuvre === undefined ? [] : [picture(map, scales, axis, tune, trial, manoeuvre)];
  });
}

function picture(
  map: StabilityMap,
  scales: Scales,
  axis: Axis,
  tune: LadderTune,
  trial: LadderTrial,
  manoeuvre: LadderManoeuvre,
): Piece {
  const label = `${AXIS_TITLES[axis]}, ${manoeuvre.title}, predicted: ${measuredWords(map, tune, manoeuvre.kind)}`;
  return html`<div role="img" aria-label="${label}">${raw(traceSvg(pictureOf(scales, axis, trial, manoeuvre)))}</div>`;
}

function pictureOf(scales: Scales, axis: Axis, { rate, angle }: LadderTrial, manoeuvre: LadderManoeuvre): TracePicture {
  const { from, period, command, kind } = manoeuvre;
  const name = `${axis}, ${ladderRow(kind).pictured}`;
  const line = { from, period, role: "contour", width: 1.4 } as const;
  if (angle !== null) {
    const top = niceBelow(scales.swing.value[1]);
    const marks = [{ at: 0, text: "" }, ...[-top, top].map((at) => ({ at, text: withUnit(at, "\u00b0") }))];
    return { name, nameAt: "low", ...scales.swing, marks, lines: [{ ...line, values: angle }] };
  }
  const [lowest, highest] = extentOf(command, 0);
  const level = highest >= -lowest ? highest : lowest;
  return {
    name,
    nameAt: "right",
    ...scales.stop,
    marks: [
      { at: 0, text: "0" },
      { at: level, text: `${toThreeDigits(level)}\u00a0\u00b0/s` },
    ],
    lines: [
      { ...line, values: command, role: "soft", width: 1, dash: [3, 2.5] },
      { ...line, values: rate },
    ],
  };
}

/** The largest of 1, 2, 5, 10, ... that is not above. */
function niceBelow(value: number): number {
  const steps = [0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500];
  return steps.findLast((step) => step <= value) ?? 0.2;
}
