// Theory's first answer as a pilot reads it, before the trials and held against them after.
import type { FirstAnswer, FirstEnd, FirstStart } from "../map/first-answer.js";
import type { StabilityMap } from "../map/format.js";
import { endText } from "../map/gain-text.js";
import type { OwnScale } from "../map/own-scale.js";
import { AXES, AXIS_TITLES, type Axis } from "./axes.js";
import { marginsText } from "./margin-words.js";
import { withUnit } from "./numbers.js";
import { settingWithOurs } from "./own-words.js";

const LEAD = "By theory alone, an estimate that the trials now check and not yet a tune to fly:";

/** A line that says what it is worth, and one for each axis. */
export const firstAnswerLines = (answer: FirstAnswer, own: OwnScale | null): string[] => [
  LEAD,
  ...AXES.map((axis) => `${AXIS_TITLES[axis]}: ${axisWords(answer, axis, own)}`),
];

function axisWords({ units, ...axes }: FirstAnswer, axis: Axis, own: OwnScale | null): string {
  const start = axes[axis];
  if (start === null) return "no P and D keep even 1 dB and 10\u00b0.";
  const gains = (["p", "d"] as const).map(
    (gain) => `${gain.toUpperCase()} ${settingWithOurs(own, gain, start[gain], units[gain])}`,
  );
  const few = start.enough ? "" : ", less than the sweep asks for";
  return `start near ${gains.join(", ")}, with margins of ${marginsText(start.margins)}${few}; ${endWords(start, own)}.`;
}

/** From which P up the oscillation keeps itself alive: the range over the levels, the first by name. */
function endWords({ boundary: { lowest, highest } }: FirstStart, own: OwnScale | null): string {
  if (lowest === null) return "no P near it makes an oscillation that does not die out";
  const text = ({ p }: FirstEnd) => `P ${endText(own, "p", p)}`;
  const rest =
    highest === null
      ? "; not at all at some level"
      : highest.p === lowest.p
        ? ""
        : `; elsewhere up to ${text(highest)}`;
  const level = `${withUnit(lowest.throttle, "%")} throttle, ${lowest.condition}`;
  return `at this D the oscillation no longer dies out from ${text(lowest)} up (${level}${rest})`;
}

/** How far theory's first start lay from the simulated one, where there is one to compare or to take back. */
export function againstFirstLines(answer: FirstAnswer, { axes }: Pick<StabilityMap, "axes">): string[] {
  const withdrawn = AXES.filter((axis) => answer[axis] !== null && axes[axis].start === null);
  const compared = AXES.flatMap((axis) => {
    const [first, start] = [answer[axis], axes[axis].start];
    return first === null || start === null ? [] : [`${axis} ${apartWords(first, start)}`];
  });
  return [
    ...withdrawn.map((axis) => `Theory\u2019s first start of ${axis} is withdrawn: the trials find none that is safe.`),
    ...(compared.length === 0 ? [] : [`Theory alone had said: ${compared.join("; ")}.`]),
  ];
}

interface Gains {
  readonly p: number;
  readonly d: number;
}

function apartWords(first: Gains, start: Gains): string {
  const apart = (gain: "p" | "d"): string => {
    if (start[gain] === 0) return `${gain.toUpperCase()} above 0`;
    const percents = Math.round(100 * (first[gain] / start[gain] - 1));
    const size = withUnit(Math.abs(percents), "%");
    return `${gain.toUpperCase()} ${percents === 0 ? "the same" : `${size} ${percents < 0 ? "lower" : "higher"}`}`;
  };
  return `${apart("p")}, ${apart("d")}`;
}
