// An invented stability map with the shapes a real one has: a sustained boundary that rises with D and folds back,
// loose ground at low P, ringing before the boundary, heat at high D. Nothing here is simulated.
import { MEASURE_IDS, MEASURES, type MeasureId } from "../../src/base/measures.js";
import { D_UNIT, I_UNIT, P_UNIT } from "../../src/base/units.js";
import type {
  AxisMap,
  BoundaryPoint,
  ConditionBoundary,
  Grid,
  LimitCrossing,
  LimitRoom,
  MapVariant,
  StabilityMap,
  StartingTune,
} from "../../src/map/format.js";
import type { LimitingCase } from "../../src/map/limiting-case.js";
import {
  type Axis,
  beyond,
  gainUp,
  inside,
  interval,
  LOOPS,
  type Loop,
  limits,
  reasonsAt,
  valuesAt,
  worst,
} from "./loops.js";

const THROTTLES = [25, 50, 80];
const CONDITIONS = ["fresh pack", "tired pack"];
const SCRIPTS: readonly (readonly [string, string, string, boolean, number])[] = [
  ["nudge", "Small nudge", "nudge", true, 0],
  ["roll-stop", "Hard stop from a roll", "stop", true, 500],
  ["flip-stop", "Hard stop from a flip", "stop", true, 500],
  ["blip", "Throttle blip", "blip", false, 0],
  ["punch-out", "Punch-out", "blip", false, 0],
  ["drop-and-catch", "Drop and catch", "blip", false, 0],
  ["prop-wash-turn", "Sharp turn into prop wash", "wobble", false, 200],
  ["hover-noise", "Hover noise", "hover", false, 0],
];

const steps = (from: number, to: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));

const easeOf = (throttle: number, condition: string): number =>
  (1.42 - (throttle - 25) * 0.0076) * (condition === "tired pack" ? 1.09 : 1);
function crossings(loop: Loop, ps: readonly number[], d: number, id: MeasureId): LimitCrossing {
  const limit = limits[id] ?? Number.NaN;
  const found: number[] = [];
  for (let k = 1; k < ps.length; k++) {
    const [a, b] = [ps[k - 1] as number, ps[k] as number];
    const [from, to] = [valuesAt(loop, a, d)[id], valuesAt(loop, b, d)[id]];
    if (from !== null && to !== null && from < limit !== to < limit)
      found.push(a + ((b - a) * (limit - from)) / (to - from));
  }
  return { d, p: found };
}

const limitingCase = (script: string, throttle: number, condition: string, rate = 0): LimitingCase => ({
  script,
  throttle,
  rate,
  condition,
});
const stop = (axis: Axis): LimitingCase =>
  limitingCase(axis === "roll" ? "roll-stop" : "flip-stop", 80, "fresh pack", 500);

function variantsOf(axis: Axis): MapVariant[] {
  return SCRIPTS.filter(([name]) => name !== (axis === "roll" ? "flip-stop" : "roll-stop")).flatMap(
    ([script, title, kind, varies, rate]) =>
      (varies ? THROTTLES : [32]).flatMap((throttle) =>
        CONDITIONS.map((condition) => ({ script, title, kind, axis, throttle, rate, condition })),
      ),
  );
}

function boundaryPoint(loop: Loop, axis: Axis, d: number, top: number): BoundaryPoint {
  const range = interval(loop, d, 1);
  if (range === null) return { d, p: null, reason: "always", ...stop(axis) };
  if (range[1] > top) return { d, p: null, reason: "never" };
  return { d, p: range[1], ...(range[0] > 6 ? { from: range[0] } : {}), ...stop(axis) };
}

function conditionBoundary(
  loop: Loop,
  variant: MapVariant,
  ps: readonly number[],
  ds: readonly number[],
): ConditionBoundary {
  const ease = easeOf(variant.throttle, variant.condition) * (variant.kind === "stop" ? 1 : 1.04);
  const [low, high] = [ps[0] as number, ps.at(-1) as number];
  const perD = ds.map((d) => {
    const range = interval(loop, d, ease);
    if (range === null || range[0] >= high) return { d, stable: [] };
    const [from, to] = [Math.max(low, range[0]), Math.min(high, range[1])];
    return { d, stable: [{ from, to, fromOpen: from === low, toOpen: to === high, width: [0.1, 0.1] as const }] };
  });
  return {
    ...limitingCase(variant.script, variant.throttle, variant.condition, variant.rate),
    kind: variant.kind,
    perD,
  };
}

/** First factor at which `good` fails, as a room. */
function room(
  limit: (p: number, d: number) => string | null,
  p: number,
  d: number,
  who: LimitingCase,
  up: boolean,
  along: "p" | "d",
): LimitRoom {
  for (let factor = 1; factor < 20; factor *= 1.01) {
    const by = up ? factor : 1 / factor;
    const met = along === "p" ? limit(p * by, d) : limit(p, d * by);
    if (met !== null) return { limit: met, decidedBy: met === "grid edge" ? null : who, factor: by };
  }
  return { limit: "grid edge", decidedBy: null, factor: null };
}

function limitMet(loop: Loop, edge: { p: number; d: number }): (p: number, d: number) => string | null {
  return (p, d) => {
    if (p > edge.p || p < edge.p / 12 || d > edge.d) return "grid edge";
    const values = valuesAt(loop, p, d);
    if (!inside(interval(loop, d, 1), p)) return "sustained oscillation";
    const measure = MEASURES.find((m) => m.argues !== null && beyond(m.id, values[m.id]));
    if (measure !== undefined) return measure.id;
    return (gainUp(loop, p, d) ?? 99) < 6 ? "gain margin" : null;
  };
}

function startingTune(loop: Loop, axis: Axis, p: number, d: number, edge: { p: number; d: number }): StartingTune {
  const met = limitMet(loop, edge);
  const values = valuesAt(loop, p, d);
  return {
    p,
    d,
    i: 42.5,
    own: null,
    limitedBy: "gain margin with more D",
    room: {
      pUp: room(met, p, d, stop(axis), true, "p"),
      pDown: room(met, p, d, limitingCase("prop-wash-turn", 32, "tired pack", 200), false, "p"),
      dUp: room(met, p, d, limitingCase("hover-noise", 32, "fresh pack"), true, "d"),
      dDown: room(met, p, d, stop(axis), false, "d"),
    },
    measures: values,
    margins: { gainUp: gainUp(loop, p, d) ?? 18, gainDown: 14.2, phase: 52.4 },
  };
}

const grid = <T>(ds: readonly number[], ps: readonly number[], at: (p: number, d: number) => T): Grid<T> =>
  ds.map((d) => ps.map((p) => at(p, d)));

function axisMap(axis: Axis, ps: readonly number[], ds: readonly number[], variants: readonly MapVariant[]): AxisMap {
  const loop = LOOPS[axis];
  const top = ps.at(-1) as number;
  const reasons = grid(ds, ps, (p, d) => reasonsAt(inside(interval(loop, d, 1), p), valuesAt(loop, p, d)));
  const up = grid(ds, ps, (p, d) => gainUp(loop, p, d));
  const safe = reasons.map((row, i) => row.map((bits, j) => bits === 0 && (up[i]?.[j] ?? 0) >= 6));
  const decider = variants.findIndex((v) => v.axis === axis && v.kind === "stop" && v.throttle === 80);
  const share = safe.flat().filter(Boolean).length / safe.flat().length;
  const start = axis === "roll" ? { p: 20.6, d: 2.94 } : { p: 23.4, d: 3.13 };
  const table = (id: MeasureId) => grid(ds, ps, (p, d) => valuesAt(loop, p, d)[id]);
  return {
    grid: { p: ps, d: ds },
    verdict: reasons.map((row) => row.map(worst)),
    reasons,
    decidedBy: reasons.map((row) => row.map((bits) => (bits === 0 ? -1 : decider))),
    measures: Object.fromEntries(MEASURE_IDS.map((id) => [id, table(id)])) as AxisMap["measures"],
    absent: Object.fromEntries(
      MEASURE_IDS.map((id) => [
        id,
        table(id).map((row) => row.map((v) => (v === null ? (id === "damping" ? 3 : 2) : 0))),
      ]),
    ) as unknown as AxisMap["absent"],
    margins: { gainUp: up, gainDown: grid(ds, ps, () => 14.2), phase: grid(ds, ps, () => 52.4) },
    boundary: {
      sustained: ds.map((d) => boundaryPoint(loop, axis, d, top)),
      byVariant: variants.filter((v) => v.axis === axis).map((v) => conditionBoundary(loop, v, ps, ds)),
      overshoot: ds.map((d) => crossings(loop, ps, d, "overshoot")),
      settling: ds.map((d) => crossings(loop, ps, d, "settling")),
    },
    safe,
    safeShare: share,
    start: startingTune(loop, axis, start.p, start.d, { p: top, d: ds.at(-1) as number }),
    startReason: null,
  };
}

/** What one unit of an invented controller's own numbers is worth: 0.004 % per 100 °/s, 0.02 % per 100°, 0.0005 % per 1000 °/s². */
const SCALE = Object.freeze({ p: 0.004 * P_UNIT, i: 0.02 * I_UNIT, d: 0.0005 * D_UNIT });

/** The map with a model that says so; `more` of the scale, as of yaw. */
export const withScale = (map: StabilityMap, more: object = {}): StabilityMap => ({
  ...map,
  model: { controller: { ...(map.model as { controller: object }).controller, scale: { ...SCALE, ...more } } },
});

/** The invented map; `count` grid lines a side. */
export function fixture(count = 32): StabilityMap {
  const [p, d] = [steps(6, 70, count), steps(0, 9, count)];
  const variants = (["roll", "pitch"] as const).flatMap(variantsOf);
  const trials = count * count * variants.length;
  return {
    format: "gainscape.map/2",
    product: { name: "gainscape", version: "0.1.0" },
    airframe: {
      name: "Sandpiper",
      version: "r1",
      title: "5-inch stretched X, first airframe of the rescue scouts",
      digest: "3f1c".repeat(16),
    },
    sweep: { name: "first-tune", title: "First tune", digest: "9ab4".repeat(16) },
    units: { p: "%/(100 deg/s)", d: "%/(1000 deg/s^2)", i: "%/(100 deg)" },
    limits,
    variants,
    axes: { roll: axisMap("roll", p, d, variants), pitch: axisMap("pitch", p, d, variants) },
    assumptions: [
      "wash.rms: 12 % of mean thrust at the worst descent ratio",
      "wash.revolutions: 30",
      "pack.openCircuit: typical lithium-polymer rest curve",
      "Limit: Bounce-back 15 %.",
    ],
    hover: {
      "fresh pack": { throttle: 31.6, rotorSpeed: 13_240, voltage: 16.1 },
      "tired pack": { throttle: 35.2, rotorSpeed: 13_240, voltage: 14.6 },
    },
    provenance: {
      command: "gainscape sweep sweeps/first-tune.yaml --model models/sandpiper-r1.yaml",
      seed: 20261125,
      model: "models/sandpiper-r1.yaml",
      sweep: "sweeps/first-tune.yaml",
      trials,
      steps: trials * 8000,
    },
    model: { controller: { latency: 0.001 } },
    plan: { sweep: { margins: { gain: 6, phase: Math.PI / 4 } } },
  };
}

/** A copy with no starting tune on one axis, for the reason given. */
export function withoutStart(map: StabilityMap, axis: Axis, reason: string): StabilityMap {
  const bare = map.axes[axis].safe.map((row) => row.map(() => false));
  const stripped = { ...map.axes[axis], safe: bare, safeShare: 0, start: null, startReason: reason };
  return { ...map, axes: { ...map.axes, [axis]: stripped } };
}
