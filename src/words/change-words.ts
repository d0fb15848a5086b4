// What is different at a step of the ladder from the one before it, as far as an eye can see it. Thresholds ours, no source.
import { at } from "../base/at.js";
import type { LadderKind } from "../base/script-kinds.js";
import type { StabilityMap } from "../map/format.js";
import type { LadderTune } from "../map/ladder-format.js";
import { AXES, type Axis } from "./axes.js";
import { earlierTrial } from "./earlier-step.js";
import { capital } from "./limit-words.js";

type Measures = LadderTune["measures"];

/** A difference that can be seen: 1 more, -1 less, 0 none. */
type Sign = -1 | 0 | 1;

interface Seen {
  readonly kind: LadderKind;
  readonly verb: string;
  readonly sign: (before: Measures, now: Measures) => Sign;
  readonly more: string;
  readonly less: string;
}

const LEAST_FACTOR = 1.25; // of a time, an angle or a pace
const LEAST_BACK = 3; // % of the commanded rate
const LEAST_ANGLE = 0.2; // deg rms

const byFactor =
  (of: (measures: Measures) => number | null | undefined, least = 0) =>
  (before: Measures, now: Measures): Sign => {
    const [a, b] = [of(before), of(now)];
    if (a == null || b == null || Math.abs(b - a) < least) return 0;
    return b > LEAST_FACTOR * a ? 1 : a > LEAST_FACTOR * b ? -1 : 0;
  };

const byStep =
  (of: (measures: Measures) => number | null | undefined, least: number) =>
  (before: Measures, now: Measures): Sign => {
    const [a, b] = [of(before), of(now)];
    return a == null || b == null || Math.abs(b - a) < least ? 0 : b > a ? 1 : -1;
  };

const FAR = { more: "further", less: "less far" } as const;

const SEEN: readonly Seen[] = [
  { kind: "stop", verb: "swings back", sign: byStep(({ overshoot }) => overshoot, LEAST_BACK), ...FAR },
  {
    kind: "stop",
    verb: "swings back",
    sign: byStep(({ rebounds }) => rebounds, 1),
    more: "more often",
    less: "less often",
  },
  { kind: "stop", verb: "comes to rest", sign: byFactor(({ settling }) => settling), more: "later", less: "sooner" },
  { kind: "wobble", verb: "rocks", sign: byFactor(({ wobbleAngle }) => wobbleAngle, LEAST_ANGLE), ...FAR },
  {
    kind: "wobble",
    verb: "rocks",
    sign: byFactor(({ wobbleFrequency }) => wobbleFrequency),
    more: "quicker",
    less: "slower",
  },
  { kind: "blip", verb: "tilts", sign: byFactor(({ kick }) => kick, LEAST_ANGLE), ...FAR },
];

const WHERE: Readonly<Record<LadderKind, string>> = {
  stop: "after the stop",
  wobble: "in disturbed air",
  blip: "as the throttle moves",
};

/** "After the stop it comes to rest sooner; in disturbed air it rocks further and quicker than at step 1." Null for the first step. */
export function changeWords(map: StabilityMap, index: number): string | null {
  const step = map.ladder?.steps[index];
  const compared = AXES.flatMap((axis) => comparedTrials(map, index, axis));
  if (step === undefined || compared.length === 0) return null;
  const kinds = [...new Set(compared.map(({ kind }) => kind))];
  const parts = kinds.flatMap((kind) => {
    const changes = changesOf(
      compared.filter((one) => one.kind === kind),
      kind,
    );
    return changes.length === 0 ? [] : [`${WHERE[kind]} it ${changes.join(", ")}`];
  });
  const before = Math.max(...compared.map((one) => one.step)) + 1;
  return parts.length === 0
    ? `It looks as it did at step ${before}.`
    : `${capital(parts.join("; "))} than at step ${before}.`;
}

interface Compared {
  readonly axis: Axis;
  readonly kind: LadderKind;
  readonly step: number;
  readonly before: Measures;
  readonly now: Measures;
}

function comparedTrials(map: StabilityMap, index: number, axis: Axis): Compared[] {
  const { steps, manoeuvres } = map.ladder ?? { steps: [], manoeuvres: [] };
  const tune = at(steps, index).axes[axis];
  return (tune?.trials ?? []).flatMap(({ manoeuvre }) => {
    const kind = manoeuvres[manoeuvre]?.kind;
    const earlier = kind === undefined ? null : earlierTrial(map, index, axis, kind);
    if (tune === undefined || kind === undefined || earlier === null) return [];
    return [{ axis, kind, step: earlier.step, before: earlier.tune.measures, now: tune.measures }];
  });
}

/** "swings back less far and less often (roll), comes to rest sooner". */
function changesOf(compared: readonly Compared[], kind: LadderKind): string[] {
  const seen = SEEN.filter((one) => one.kind === kind);
  return [...new Set(seen.map(({ verb }) => verb))].flatMap((verb) => {
    const how = seen.filter((one) => one.verb === verb).flatMap((one) => differences(compared, one));
    return how.length === 0 ? [] : [`${verb} ${how.join(" and ")}`];
  });
}

/** An axis is named where the other one does not change the same way. */
const differences = (compared: readonly Compared[], { sign, more, less }: Seen): string[] =>
  ([1, -1] as const).flatMap((way) => {
    const axes = compared.filter(({ before, now }) => sign(before, now) === way).map(({ axis }) => axis);
    if (axes.length === 0) return [];
    const words = way === 1 ? more : less;
    return [axes.length === compared.length ? words : `${words} (${axes.join(" and ")})`];
  });
