// The trials that are simulated twice: here by the loop, there by the reference program.
import type { Airframe } from "../../src/airframe/airframe.js";
import { craftUnder, STANDARD_DAY } from "../../src/airframe/craft.js";
import { hoverTrim } from "../../src/airframe/trim.js";
import { rigOf } from "../../src/kernel/rig.js";
import { scratchFor, simulateTrial } from "../../src/kernel/simulate-trial.js";
import type { Plan } from "../../src/plan/plan.js";
import type { Axis, Script } from "../../src/sweep/sweep.js";
import { axisPieces } from "../../src/theory/axis-pieces.js";
import { stableIntervals } from "../../src/theory/boundary.js";
import type { GainsByAxis } from "../../src/theory/plant.js";
import { FULL, nudge, planOf, withSubsteps } from "../fixtures/airframe.js";
import { type Model, questionOf } from "./questions.js";

const rate = (radians: number) => ({ kind: "rate" as const, rate: radians });
const level = (plus: number) => ({ kind: "level" as const, plus });
const speed = (metres: number) => ({ kind: "speed" as const, speed: metres });

const hoverOf = (airframe: Airframe): number => hoverTrim(craftUnder(airframe, STANDARD_DAY))?.throttle ?? Number.NaN;

/** One trial of the loop: a plan of one script at hover throttle, and P and D of the axis under test. */
export interface Trial {
  readonly airframe: Airframe;
  readonly script: Script;
  readonly axis: Axis;
  readonly p: number; // fraction per (rad/s)
  readonly d: number; // fraction per (rad/s^2)
}

const planned = ({ airframe, script }: Trial, substeps: number): Plan =>
  planOf(withSubsteps(airframe, substeps), script, [hoverOf(airframe)], [FULL]);

const axisIndex = { roll: 0, pitch: 1 } as const;

/** Rate of the axis under test at each sampling instant, rad/s. */
export function simulatedTrace(trial: Trial, substeps: number): Float64Array {
  const plan = planned(trial, substeps);
  const rig = rigOf(plan, plan.variants.find(({ axis }) => axis === trial.axis) as Plan["variants"][number]);
  const scratch = scratchFor(rig);
  simulateTrial(rig, trial.p, trial.d, { from: 0, to: rig.steps }, scratch);
  return scratch.trace;
}

/** The same as a question to the reference program. */
export function trialQuestion(trial: Trial) {
  const { airframe, script, axis } = trial;
  const { holding } = planned(trial, 1);
  const { controller } = airframe;
  const gains: GainsByAxis = {
    ...holding,
    yaw: controller.yaw,
    [axis]: { p: trial.p, i: controller[axis].i, d: trial.d },
  };
  const throttle = hoverOf(airframe);
  const model: Model = { airframe, around: STANDARD_DAY, throttle, gains };
  const [gust] = script.gusts;
  return {
    ...questionOf(model),
    axis: axisIndex[axis] + 1,
    steps: Math.round(script.duration * controller.rate),
    level: script.throttle.map(([t, value]) => [t, throttle + (value.kind === "level" ? value.plus : 0)]),
    command: script.command.map(([t, value]) => [t, value.kind === "rate" ? value.rate : 0]),
    climb: script.climb.map(([t, value]) => [t, value.kind === "speed" ? value.speed : 0]),
    gust: gust?.kind === "pulse" ? { at: gust.at, peak: gust.peak, length: gust.length, speed: gust.speed } : [],
  };
}

/** P well under the axis's first limit in hover, and a D that helps. */
export function workingGains(airframe: Airframe, axis: Axis): { readonly p: number; readonly d: number } {
  const plan = planOf(airframe, nudge(1), [hoverOf(airframe)], [FULL]);
  const [{ craft, hover }] = plan.conditions;
  const pieces = axisPieces(craft, hover, axis, { ...plan.holding, yaw: airframe.controller.yaw });
  const [stable] = stableIntervals(pieces, 0, airframe.controller[axis].i, { from: 0, to: 1e3 });
  const p = 0.35 * stable.to;
  return { p, d: 0.01 * p };
}

/** Commanded rate of the busy trial, rad/s. */
export const ROLL = 8;

/** A hard stop shortened to a fifth of a second, with a throttle burst, a climb and a gust in it. */
export function busyScript(duration: number): Script {
  return {
    ...nudge(0),
    kind: "stop",
    duration,
    throttle: [
      [0, level(0)],
      [0.06, level(0)],
      [0.09, level(0.3)],
      [0.15, level(-0.1)],
    ],
    command: [
      [0.005, rate(0)],
      [0.02, rate(ROLL)],
      [0.1, rate(ROLL)],
      [0.11, rate(0)],
    ],
    climb: [
      [0.05, speed(0)],
      [0.12, speed(3)],
    ],
    gusts: [{ kind: "pulse", at: 0.1, peak: 4, length: 1, speed: 15 }],
  };
}

/** A step of the command, small enough to meet no limit. */
export const STEP = 1e-3; // rad/s
export const stepScript = (duration: number): Script => ({ ...nudge(0), duration, command: [[0, rate(STEP)]] });
