// Faults of a script file whose form is right: times, spans and values that make no valid trial.
import type { Path } from "../base/problem.js";
import { SCRIPT_KINDS } from "../base/script-kinds.js";
import { THEORY } from "../base/theory-name.js";
import { quantityText } from "../base/units.js";
import { type ScriptFile, SHORTEST_TAIL } from "./script-schema.js";
import type { RateValue, SpeedValue } from "./sweep.js";

export interface Fault {
  readonly path: Path;
  readonly message: string;
}

export function scriptFaults(script: ScriptFile): Fault[] {
  return [
    ...nameFaults(script),
    ...timeFaults(script),
    ...spanFaults(script),
    ...tailFaults(script),
    ...kindFaults(script),
  ];
}

/** In a map's limiting case "theory" is not a script. */
const nameFaults = ({ name }: ScriptFile): Fault[] =>
  name === THEORY
    ? [
        {
          path: ["name"],
          message: `"${THEORY}" is what a map calls theory where it decides; give the script another name`,
        },
      ]
    : [];

const LINES = ["throttle", "command", "yaw", "climb", "descent"] as const;

const seconds = (value: number): string => quantityText(value, "duration");

function timeFaults(script: ScriptFile): Fault[] {
  return LINES.flatMap((line) => {
    const points = script[line] ?? [];
    return points.flatMap(({ at }, index) => {
      const path: Path = [line, index, "at"];
      if (at > script.duration)
        return [{ path, message: `${seconds(at)} is after the end at ${seconds(script.duration)}` }];
      const before = points[index - 1]?.at;
      if (before === undefined || at > before) return [];
      return [{ path, message: `${seconds(at)} does not come after ${seconds(before)}, expected rising times` }];
    });
  });
}

function spanFaults({ window, tail, duration }: ScriptFile): Fault[] {
  const faults: Fault[] = [];
  for (const [key, span] of Object.entries({ window, tail })) {
    if (span.to <= span.from)
      faults.push({ path: [key], message: `is empty: from ${seconds(span.from)} to ${seconds(span.to)}` });
    if (span.to > duration)
      faults.push({ path: [key, "to"], message: `${seconds(span.to)} is after the end at ${seconds(duration)}` });
  }
  const calm = tail.to - tail.from;
  // a millionth of a second for the rounding of decimal times
  if (calm > 0 && calm < SHORTEST_TAIL - 1e-6) {
    faults.push({
      path: ["tail"],
      message: `${seconds(calm)} long, expected at least ${seconds(SHORTEST_TAIL)}: slow oscillations need that to show`,
    });
  }
  return faults;
}

/** In the tail nothing may move but the craft: what is left there is its own oscillation. */
function tailFaults(script: ScriptFile): Fault[] {
  const { from } = script.tail;
  const moving = LINES.flatMap((line): Fault[] => {
    const late = (script[line] ?? []).findIndex(({ at }, index) => index > 0 && at > from);
    return late === -1
      ? []
      : [
          {
            path: [line, late, "at"],
            message: `the ${line} still moves in the tail, which begins at ${seconds(from)}`,
          },
        ];
  });
  const gustFaults = (script.gusts ?? []).flatMap((gust, index): Fault[] => {
    const end = gust.kind === "pulse" ? gust.at + gust.length / gust.speed : gust.to;
    return end <= from
      ? []
      : [
          {
            path: ["gusts", index],
            message: `still blows at ${seconds(end)}, in the tail, which begins at ${seconds(from)}`,
          },
        ];
  });
  const order = (script.gusts ?? []).flatMap((gust, index): Fault[] =>
    gust.kind === "turbulence" && gust.to <= gust.from
      ? [{ path: ["gusts", index], message: "ends before it begins" }]
      : [],
  );
  return [...moving, ...gustFaults, ...order, ...(moving.length > 0 ? [] : endFaults(script))];
}

/** In the tail everything commanded is zero: no rate, no climb or descent. */
function endFaults(script: ScriptFile): Fault[] {
  return (["command", "yaw", "climb", "descent"] as const).flatMap((line): Fault[] => {
    const points: readonly { value: RateValue | SpeedValue }[] = script[line] ?? [];
    const last = points.at(-1)?.value;
    if (last === undefined || amount(last) === 0) return [];
    return [{ path: [line, points.length - 1, "value"], message: `the ${line} must end at none: the tail is calm` }];
  });
}

function amount(value: RateValue | SpeedValue): number {
  if (value.kind === "rate") return value.rate;
  if (value.kind === "share") return value.share;
  return value.kind === "speed" ? value.speed : value.ratio;
}

function kindFaults({ kind, command, window }: ScriptFile): Fault[] {
  const expected = SCRIPT_KINDS[kind].command;
  if (expected === null) return [];
  const last = command?.at(-1)?.at;
  if (last === undefined)
    return [{ path: ["command"], message: `missing: a ${kind} needs a commanded rate that ends` }];
  if (expected === "ends" || Math.abs(window.from - last) < 1e-6) return [];
  return [
    { path: ["window", "from"], message: `a ${kind} is timed from the end of the commanded ramp, ${seconds(last)}` },
  ];
}
