// The sustained boundary of the shipped models: theory against trials, at 32 D up to far beyond a tune, every throttle level
// and pack state of the first-tune sweep. And the equations of motion against an independent solver.
import { readdirSync } from "node:fs";
import { craftUnder } from "../../../src/airframe/craft.js";
import { hoverTrim } from "../../../src/airframe/trim.js";
import { D_UNIT, P_UNIT } from "../../../src/base/units.js";
import { planFor } from "../../../src/flow/plan.js";
import { readAirframe, readSweep } from "../../../src/flow/read.js";
import type { Plan, TrialPlan, Variant } from "../../../src/plan/plan.js";
import { stripVariants } from "../../../src/plan/strip-variants.js";
import { NUDGE_DECAY } from "../../../src/response/sustained.js";
import { OUTCOMES } from "../../../src/run/task.js";
import { taskRunner } from "../../../src/run/task-runner.js";
import { axisPieces } from "../../../src/theory/axis-pieces.js";
import { stableIntervals, ultimateGain } from "../../../src/theory/boundary.js";
import { steppedPlant } from "../../../src/theory/stepped.js";
import { askew, TIRED } from "../../fixtures/airframe.js";
import { bothAxes } from "../../fixtures/both-axes.js";
import { byLoop, bySolver, type OpenLoopTrial } from "../../kernel/open-loop.js";
import { alike, type Check, type Group } from "../check.js";

const SUSTAINED = OUTCOMES.indexOf("sustained");

/** P at which stable ground begins or ends at a D. */
interface End {
  readonly d: number;
  readonly p: number;
  readonly upper: boolean;
}

/** Ends of the stable P ranges inside the grid, as the trials' own rule puts them. */
function endsOf(plan: Plan, variant: Variant): End[] {
  const { p, d } = plan.sweep.grid.roll;
  const { i } = plan.airframe.controller[variant.axis];
  const holding = { ...plan.holding, yaw: plan.airframe.controller.yaw };
  const { craft } = plan.conditions[variant.condition];
  const pieces = axisPieces(craft, variant.trim, variant.axis, holding, steppedPlant);
  const range = { from: p[0], to: p[p.length - 1] };
  return d.flatMap((gain) => {
    const points = ultimateGain(pieces, gain, i, range);
    const moved = (edge: number) => edge + NUDGE_DECAY * (points.find((point) => point.p === edge)?.perGrowth ?? 0);
    return stableIntervals(pieces, gain, i, range).flatMap(({ from, to }): End[] => [
      ...(from > range.from ? [{ d: gain, p: moved(from), upper: false }] : []),
      ...(to < range.to ? [{ d: gain, p: moved(to), upper: true }] : []),
    ]);
  });
}

const WIDEST = 0.01; // share of P beyond which a difference is not followed
const FINEST = 2e-5; // share of P to which the trials' end is bisected

/** Largest share of P by which the trials' own ends differ: all of a variant bisected together, lane by lane. */
function differs(run: ReturnType<typeof taskRunner>, variant: number, ends: readonly End[]): number {
  const sustained = (factors: readonly number[]) => {
    const p = Float64Array.from(ends, (end, k) => factors[k] * end.p);
    const { outcome } = run({ variant, p, d: Float64Array.from(ends, ({ d }) => d) });
    return ends.map((_, k) => outcome[k] === SUSTAINED);
  };
  let [low, high] = [ends.map(() => 1 - WIDEST), ends.map(() => 1 + WIDEST)];
  const [below, above] = [sustained(low), sustained(high)];
  if (ends.some(({ upper }, k) => below[k] === upper || above[k] !== upper)) return WIDEST;
  for (let width = 2 * WIDEST; width > FINEST; width /= 2) {
    const middle = low.map((from, k) => 0.5 * (from + high[k]));
    const beyond = sustained(middle).map((is, k) => is === ends[k].upper);
    high = high.map((to, k) => (beyond[k] ? middle[k] : to));
    low = low.map((from, k) => (beyond[k] ? from : middle[k]));
  }
  return Math.max(...low.map((from, k) => Math.abs(0.5 * (from + high[k]) - 1)));
}

interface Compared {
  readonly ends: number;
  readonly worst: number; // share of P
}

/** Not the sweep's own lines: those stand closest where the boundary folds back, and there a hair of D is much of P. */
const EVEN = {
  p: Array.from({ length: 32 }, (_, k) => (2 + 2 * k) * P_UNIT),
  d: Array.from({ length: 32 }, (_, k) => 0.15 * k * D_UNIT),
};

const compared = new Map<string, Compared>();

/** Every end of a model's boundary inside the swept range, for every throttle, pack and axis. */
function comparedOf(file: string): Compared {
  const found = compared.get(file) ?? comparedAnew(file);
  compared.set(file, found);
  return found;
}

function comparedAnew(file: string): Compared {
  const { value, document } = readSweep("sweeps/first-tune.yaml");
  const plan = planFor(readAirframe(`models/${file}`), { document, value: { ...value, grid: bothAxes(EVEN) } });
  const run = taskRunner(plan);
  // Where compensation asks a tired pack for more than full duty, every rotor stands at its limit, and nothing is linear.
  const within = ({ trim }: Variant) => Math.max(...trim.duties) < 1;
  const nudges = plan.variants.filter((variant) => variant.script.kind === "nudge" && within(variant));
  return nudges.reduce<Compared>(
    (so, variant) => {
      const ends = endsOf(plan, variant);
      if (ends.length === 0) return so;
      return { ends: so.ends + ends.length, worst: Math.max(so.worst, differs(run, variant.index, ends)) };
    },
    { ends: 0, worst: 0 },
  );
}

/** P of yaw, far below and far above where any of the models gives out. */
const YAW = { from: P_UNIT, to: 1e4 * P_UNIT };

/** Where yaw alone gives out, at every throttle and pack of first-tune's strip, roll and pitch held as in a sweep. */
function yawComparedOf(file: string): Compared {
  const sweep = readSweep("sweeps/first-tune.yaml");
  const plan = planFor(readAirframe(`models/${file}`), sweep);
  const nudges = sweep.value.strips?.yaw?.scripts.filter(({ script }) => script.kind === "nudge") ?? [];
  const { draws: _, ...own } = plan;
  const trials: TrialPlan = { ...own, variants: stripVariants(plan, nudges, "yaw") };
  const run = taskRunner(trials);
  const { yaw } = plan.airframe.controller;
  const within = trials.variants.filter(({ trim }) => Math.max(...trim.duties) < 1);
  return within.reduce<Compared>(
    (so, variant) => {
      const { craft } = plan.conditions[variant.condition];
      const pieces = axisPieces(craft, variant.trim, "yaw", { ...plan.holding, yaw }, steppedPlant);
      const to = stableIntervals(pieces, 0, yaw.i, YAW).at(-1)?.to ?? YAW.to;
      if (to >= YAW.to) return so;
      const { perGrowth = 0 } = ultimateGain(pieces, 0, yaw.i, YAW).find(({ p }) => p === to) ?? {};
      const end = { d: 0, p: to + NUDGE_DECAY * perGrowth, upper: true };
      return { ends: so.ends + 1, worst: Math.max(so.worst, differs(run, variant.index, [end])) };
    },
    { ends: 0, worst: 0 },
  );
}

let yawOfAll: Compared | null = null;
const yawCompared = (): Compared => {
  yawOfAll ??= MODELS.map(yawComparedOf).reduce((so, { ends, worst }) => ({
    ends: so.ends + ends,
    worst: Math.max(so.worst, worst),
  }));
  return yawOfAll;
};

const MODELS = readdirSync("models")
  .filter((file) => file.endsWith(".yaml"))
  .sort();

function openLoopTrial(): OpenLoopTrial {
  const craft = craftUnder(askew, TIRED);
  const start = hoverTrim(craft);
  if (start === null) throw new Error("the test craft cannot hover");
  return {
    craft,
    start,
    commands: [0.06, -0.04, 0.1],
    segments: [
      { periods: 100, throttle: 0.6, climb: 0, gust: [0, 0] },
      { periods: 100, throttle: 0.3, climb: 3, gust: [2, -1] },
    ],
  };
}

function solverError(substeps: number): number {
  const wanted = bySolver(openLoopTrial());
  const errors = byLoop(openLoopTrial(), substeps).flatMap((states, k) =>
    states.map((v, n) => Math.abs(v / wanted[k][n] - 1)),
  );
  return Math.max(...errors);
}

export const BOUNDARIES: Group = {
  title: "The loop as a whole",
  checks: [
    ...MODELS.map(
      (file): Check => ({
        quantity: `sustained boundary of ${file.replace(".yaml", "")} after a small nudge, wherever it lies in the swept range: worst difference over every D, and every throttle and pack short of full duty`,
        source: "the linearised loop, in the z-domain",
        status: "theory against trials",
        unit: "% of P",
        scale: 100,
        within: { unit: 0.5 },
        expected: 0,
        obtain: () => 100 * comparedOf(file).worst,
        places: () => comparedOf(file).ends,
      }),
    ),
    {
      quantity:
        "P of yaw at which a small nudge about yaw no longer dies out: worst difference over every shipped model, throttle and pack short of full duty",
      source: "the linearised loop, in the z-domain",
      status: "theory against trials",
      unit: "% of P",
      scale: 100,
      within: { unit: 0.5 },
      expected: 0,
      obtain: () => 100 * yawCompared().worst,
      places: () => yawCompared().ends,
    },
    ...alike(
      {
        source: "odex, extrapolation to twelve digits, on equations written out anew",
        status: "recomputed",
        unit: "%",
        scale: 100,
        within: { unit: 0.1 },
      },
      [
        [
          "50 ms of motion about all axes, one step a control period: largest difference",
          0,
          () => 100 * solverError(1),
        ],
      ],
    ),
    ...alike(
      {
        source: "odex, extrapolation to twelve digits, on equations written out anew",
        status: "recomputed",
        unit: "%",
        scale: 100,
        within: { unit: 1e-4 },
      },
      [["the same, sixteen steps a control period", 0, () => 100 * solverError(16)]],
    ),
  ],
};
