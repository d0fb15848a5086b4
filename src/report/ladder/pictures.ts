// The predicted traces of one step as small pictures, each with a text alternative; dotted behind them the step before.
import { ladderRow } from "../../base/script-kinds.js";
import { type TraceLine, type TracePicture, traceSvg } from "../../charts/trace.js";
import type { StabilityMap } from "../../map/format.js";
import type { LadderManoeuvre, LadderTrial } from "../../map/ladder-format.js";
import { AXIS_TITLES, type Axis } from "../../words/axes.js";
import { earlierTrial } from "../../words/earlier-step.js";
import { toThreeDigits, withUnit } from "../../words/numbers.js";
import { measuredWords } from "../../words/tune-words.js";
import { html, type Piece, raw } from "../page/html.js";
import { commandLevel, type Scales } from "./scales.js";

export interface Picture {
  readonly manoeuvre: LadderManoeuvre;
  readonly piece: Piece;
}

/** One picture per manoeuvre of the axis in step `at` (from 0). `height`: as of a trace. */
export function pictures(map: StabilityMap, scales: Scales, at: number, axis: Axis, height?: number): Picture[] {
  const tune = map.ladder?.steps[at]?.axes[axis];
  return (tune?.trials ?? []).flatMap((trial) => {
    const manoeuvre = map.ladder?.manoeuvres[trial.manoeuvre];
    if (tune === undefined || manoeuvre === undefined) return [];
    const label = `${AXIS_TITLES[axis]}, ${manoeuvre.title}, predicted: ${measuredWords(map, tune, manoeuvre.kind)}`;
    const before = earlierTrial(map, at, axis, manoeuvre.kind);
    const svg = traceSvg({ ...pictureOf(scales, axis, { trial, manoeuvre }, before), height });
    return [{ manoeuvre, piece: html`<div role="img" aria-label="${label}">${raw(svg)}</div>` }];
  });
}

interface ShownTrial {
  readonly trial: LadderTrial;
  readonly manoeuvre: LadderManoeuvre;
}

const NOW = { role: "contour", width: 1.7 } as const;
const BEFORE = { role: "soft", width: 1.2, dash: [0.6, 2.4] } as const;

function pictureOf(scales: Scales, axis: Axis, shown: ShownTrial, before: ShownTrial | null): TracePicture {
  const name = `${axis}, ${ladderRow(shown.manoeuvre.kind).pictured}`;
  const isSwing = shown.trial.angle !== null;
  const lines = [
    ...(before === null ? [] : [traceOf(before, BEFORE)]),
    ...(isSwing ? [] : [commandOf(shown)]),
    traceOf(shown, NOW),
  ];
  return isSwing
    ? { name, nameAt: "low", ...scales.swing, marks: swingMarks(scales), lines }
    : { name, nameAt: "right", ...scales.stop, marks: stopMarks(shown), lines };
}

/** Of a stop as a share of the commanded rate, so that stops from different rates can be compared. */
function traceOf(
  { trial: { rate, angle }, manoeuvre }: ShownTrial,
  look: Pick<TraceLine, "role" | "width" | "dash">,
): TraceLine {
  const { from, period } = manoeuvre;
  const level = commandLevel(manoeuvre);
  return { from, period, ...look, values: angle ?? rate.map((value) => value / level) };
}

function commandOf({ manoeuvre }: ShownTrial): TraceLine {
  const { from, period, command } = manoeuvre;
  const level = commandLevel(manoeuvre);
  return { from, period, values: command.map((value) => value / level), role: "soft", width: 1, dash: [4, 3] };
}

const stopMarks = ({ manoeuvre }: ShownTrial): TracePicture["marks"] => [
  { at: 0, text: "0" },
  { at: 1, text: `${toThreeDigits(commandLevel(manoeuvre))}\u00a0\u00b0/s` },
];

function swingMarks({ swing }: Scales): TracePicture["marks"] {
  const top = niceBelow(swing.value[1]);
  return [{ at: 0, text: "" }, ...[-top, top].map((at) => ({ at, text: withUnit(at, "\u00b0") }))];
}

/** The largest of 1, 2, 5, 10, ... that is not above. */
function niceBelow(value: number): number {
  const steps = [0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500];
  return steps.findLast((step) => step <= value) ?? 0.2;
}
