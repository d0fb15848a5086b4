// The run in plain sentences, for a terminal.
import type { StabilityMap, StartingTune } from "../map/format.js";
import { modelSheet } from "../map/model-sheet.js";
import { ownScale } from "../map/own-scale.js";
import { sureOf } from "../map/sure.js";
import { avoidWords } from "../words/avoid-words.js";
import { AXES, AXIS_TITLES, type Axis } from "../words/axes.js";
import { otherCauses } from "../words/cause-words.js";
import { bandWords, groundWords, SIMULATED_CRAFT, startShareWords } from "../words/confidence-words.js";
import { gridWords } from "../words/grid-words.js";
import { groundedAxes, WHY_GROUNDED } from "../words/grounded-words.js";
import { rangeWords, tightestWords } from "../words/limit-words.js";
import { count, percent } from "../words/numbers.js";
import { ownWords, settingWithOurs } from "../words/own-words.js";
import { printableMap } from "../words/printable.js";
import { seedWords } from "../words/seed-words.js";
import { warningLine, warningsLine } from "../words/sheet-words.js";
import { stripFinding, stripsOf } from "../words/strip-words.js";
import { unsealedWords } from "../words/unsealed-words.js";
import { firstWords } from "../words/worth-words.js";

/** "P 2356 (9.43 % per 100 °/s), D 1916 (0.958 % per 1000 °/s²), I 1250 (25 % per 100°).", or ours alone. */
function gains(map: StabilityMap, start: StartingTune): string {
  const own = ownScale(map);
  const each = (["p", "d", "i"] as const).map(
    (gain) => `${gain.toUpperCase()} ${settingWithOurs(own, gain, start[gain], map.units[gain])}`,
  );
  return `${each.join(", ")}.`;
}

/** How much of the ground is safe, and how sure that is. */
function groundLines(map: StabilityMap, name: Axis): string[] {
  const axis = map.axes[name];
  const sure = sureOf(map, axis);
  if (sure === null) return [`${percent(axis.safeShare)} of the swept points are safe.`];
  return [bandWords(ownScale(map), axis, sure), groundWords(axis, sure), firstWords(sure.worth)];
}

/** In how many draws the starting tune is safe. */
function shareLines({ axes }: StabilityMap, name: Axis): string[] {
  const share = axes[name].confidence?.start ?? null;
  return share === null ? [] : [`Safe in ${startShareWords(share)}: ${SIMULATED_CRAFT}.`];
}

function axisLines(map: StabilityMap, name: Axis): string[] {
  const { start, startReason } = map.axes[name];
  const title = AXIS_TITLES[name];
  if (start === null)
    return [
      `${title}: no starting tune. ${startReason ?? "The map gives no reason."}`,
      ...otherCauses(map.axes[name]),
      avoidWords(map, name),
      ...groundLines(map, name),
    ];
  return [
    `${title}: start at ${gains(map, start)}`,
    ...shareLines(map, name),
    `What limits it: ${tightestWords(map, start)}.`,
    `One at a time, P may lie anywhere in ${rangeWords(ownScale(map), start, "p")}, D in ${rangeWords(ownScale(map), start, "d")}.`,
    ...[seedWords(map, start)].filter((line) => line !== ""),
    avoidWords(map, name),
    ...groundLines(map, name),
  ];
}

const indented = (lines: readonly string[]): string => lines.join("\n  ");

/** Where to start, what limits, what to avoid; control characters removed, no colour. */
export function renderSummary(map: StabilityMap): string {
  const fit = printableMap(map);
  const { airframe, sweep, provenance } = fit;
  const size = `${gridWords(fit, ({ p, d }) => `${count(p.length)} \u00d7 ${count(d.length)} points`)}`;
  const head = `${airframe.name} ${airframe.version}, ${sweep.title}: ${size}, ${count(provenance.trials)} trials.`;
  const changed = unsealedWords(map);
  const unsure =
    fit.uncertaintyReason === undefined ? [] : [`How sure this is, nobody can say: ${fit.uncertaintyReason}`];
  const warnings = modelSheet(map)?.warnings ?? [];
  const whose = ownWords(fit);
  const grounded = groundedAxes(fit);
  const doubts = warnings.length === 0 ? [] : [indented([warningsLine(warnings), ...warnings.map(warningLine)])];
  return [
    head,
    ...(changed === null ? [] : [changed]),
    ...unsure,
    ...(grounded.length === 0
      ? []
      : [`DO NOT FLY: ${grounded.map(({ axis }) => `${axis} has no tune to climb to`).join(", ")}. ${WHY_GROUNDED}`]),
    `${whose.lead} ${whose.rest}`,
    ...doubts,
    ...AXES.map((name) => indented(axisLines(fit, name))),
    ...stripsOf(fit).map((named) => `${stripFinding(fit, named)}.`),
  ]
    .join("\n")
    .concat("\n");
}
