// Held against GNU Octave and its control and signal packages, in one run: closed-loop poles and margins of every shipped
// model and of two hundred random craft, filter coefficients, step responses, and trials by ode45 and lsode. The Octave side
// is written from the physics on its own, not translated from the program.
import { readdirSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { STANDARD_DAY } from "../../src/airframe/craft.js";
import { lowPassStage, notchStage } from "../../src/airframe/filter.js";
import { delayOf } from "../../src/airframe/latency.js";
import { stream } from "../../src/base/random.js";
import { readAirframe } from "../../src/flow/read.js";
import { axisPieces } from "../../src/theory/axis-pieces.js";
import { marginsOf } from "../../src/theory/margins.js";
import { askew, stretchedX } from "../fixtures/airframe.js";
import { byLoop } from "../kernel/open-loop.js";
import { closedLoopPoles, type Pole } from "../theory/closed-loop-poles.js";
import { print } from "../trust/documents.js";
import { octaveTable } from "../trust/table.js";
import { ahead, following, late, madeUp, notched, rescheduled, straightened } from "./featured.js";
import { answersTo, hasOctave } from "./octave.js";
import { craftOf, hovering, type Model, questionOf, trimOf } from "./questions.js";
import { randomModel } from "./random-craft.js";
import { type OctaveQuestion, RANDOM, TOLERANCES } from "./tolerances.js";
import {
  busyScript,
  ROLL,
  STEP,
  simulatedTrace,
  stepScript,
  type Trial,
  trialQuestion,
  workingGains,
} from "./trials.js";

const present = hasOctave();
const wanted = present || Boolean(process.env.CI);
if (!wanted)
  process.stderr.write(
    "\n*** NOT CHECKED against GNU Octave: it is not installed, or lacks its control or signal package. ***\n\n",
  );

const AXES = ["roll", "pitch"] as const;

const shipped = readdirSync("models")
  .filter((file) => file.endsWith(".yaml"))
  .map((file) => ({ file, airframe: readAirframe(`models/${file}`).value }));

const shippedModels = shipped.flatMap(({ airframe }): Model[] => {
  const working = (axis: (typeof AXES)[number]) => ({
    ...workingGains(airframe, axis),
    i: airframe.controller[axis].i,
  });
  const gains = { roll: working("roll"), pitch: working("pitch"), yaw: airframe.controller.yaw };
  return [hovering(airframe, gains), hovering(airframe, gains, 1.7, { ...STANDARD_DAY, charge: 0.25 })];
});
const models = [...shippedModels, ...Array.from({ length: RANDOM }, (_, seed) => randomModel(seed))];

const filters = Array.from({ length: 60 }, (_, k) => {
  const source = stream("filters", k);
  const rate = [1000, 2000, 4000, 8000][k % 4] as number;
  return {
    order: k % 3 === 0 ? (1 as const) : (2 as const),
    rate,
    cutoff: rate * (0.002 + (0.46 * source.next()) / 2 ** 32),
  };
});

const notches = Array.from({ length: 40 }, (_, k) => {
  const source = stream("notches", k);
  const rate = [1000, 2000, 4000, 8000][k % 4] as number;
  const share = () => source.next() / 2 ** 32;
  return { rate, centre: rate * (0.004 + 0.47 * share()), width: rate * (0.001 + 0.2 * share()) };
});

const steps: Trial[] = [
  ...shipped.map(({ airframe }) => airframe),
  late,
  notched,
  following,
  ahead,
  straightened,
  madeUp,
].flatMap((airframe) =>
  AXES.map((axis) => ({ airframe, axis, script: stepScript(0.15), ...workingGains(airframe, axis) })),
);

const busy: Trial[] = [
  { airframe: stretchedX, axis: "roll", script: busyScript(0.2), ...workingGains(stretchedX, "roll") },
  { airframe: late, axis: "roll", script: busyScript(0.2), ...workingGains(late, "roll") },
  { airframe: notched, axis: "roll", script: busyScript(0.15), ...workingGains(notched, "roll") },
  { airframe: following, axis: "roll", script: busyScript(0.15), ...workingGains(following, "roll") },
  { airframe: rescheduled, axis: "pitch", script: busyScript(0.15), ...workingGains(rescheduled, "pitch") },
  { airframe: ahead, axis: "roll", script: busyScript(0.15), ...workingGains(ahead, "roll") },
  { airframe: straightened, axis: "roll", script: busyScript(0.15), ...workingGains(straightened, "roll") },
  { airframe: madeUp, axis: "pitch", script: busyScript(0.15), ...workingGains(madeUp, "pitch") },
  { airframe: askew, axis: "pitch", script: busyScript(0.15), ...workingGains(askew, "pitch") },
];

const none = { p: 0, i: 0, d: 0 };
const openModel = hovering(askew, { roll: none, pitch: none, yaw: none });
const open = {
  craft: craftOf(openModel),
  start: trimOf(openModel),
  commands: [0.06, -0.04, 0.1],
  segments: [
    { periods: 100, throttle: 0.6, climb: 0, gust: [0, 0] },
    { periods: 100, throttle: 0.3, climb: 3, gust: [2, -1] },
    { periods: 100, throttle: 0.75, climb: -2, gust: [-3, 4] },
  ],
} as const;

interface Answers {
  readonly loops: readonly {
    readonly poles: readonly (readonly [re: number, im: number])[];
    readonly margins: readonly {
      readonly up: number | null;
      readonly down: number | null;
      readonly phase: number | null;
    }[];
  }[];
  readonly filters: readonly { readonly num: readonly number[]; readonly den: readonly number[] }[];
  readonly notches: Answers["filters"];
  readonly steps: readonly (readonly number[])[];
  readonly trials: readonly (readonly number[])[];
  readonly openLoopTrials: readonly (readonly (readonly number[])[])[];
}

/** Largest error of each quantity so far. */
const errors = Object.fromEntries(Object.keys(TOLERANCES).map((key) => [key, 0])) as Record<OctaveQuestion, number>;

/** Fails an error above what the quantity may be off by, and keeps it for the document. */
function expectWithin(quantity: OctaveQuestion, error: number, name?: string): void {
  errors[quantity] = Math.max(errors[quantity], error);
  expect(error, name).toBeLessThan(TOLERANCES[quantity]);
}

const largest = (values: Iterable<number>): number =>
  [...values].reduce((most, one) => Math.max(most, Math.abs(one)), 0);

describe.runIf(wanted)("against GNU Octave", () => {
  let answers: Answers;
  beforeAll(async () => {
    const rate = openModel.airframe.controller.rate;
    answers = await answersTo<Answers>({
      loops: models.map(questionOf),
      filters,
      notches,
      steps: steps.map(trialQuestion),
      trials: busy.map(trialQuestion),
      openLoopTrials: [
        {
          ...questionOf(openModel),
          commands: open.commands,
          segments: open.segments.map(({ periods, ...rest }) => ({ ...rest, seconds: periods / rate })),
        },
      ],
    });
  });

  it(`poles of ${models.length} closed loops`, () => {
    // Poles near the origin belong to the delay line: a chain of equal ones, which no program separates well.
    const far = (poles: readonly Pole[]) => poles.filter(({ re, im }) => Math.hypot(re, im) > 0.3);
    models.forEach((model, k) => {
      const ours = far(closedLoopPoles(craftOf(model), trimOf(model), model.gains));
      const theirs = far(answers.loops[k].poles.map(([re, im]) => ({ re, im })));
      const gap = (one: Pole, others: readonly Pole[]) =>
        Math.min(...others.map((other) => Math.hypot(one.re - other.re, one.im - other.im)));
      const { steps, newerShare } = delayOf(model.airframe);
      const name = `${model.airframe.name} ${k}, delay ${steps} - ${newerShare}`;
      expectWithin("poles", largest(ours.map((one) => gap(one, theirs))), name);
      expectWithin("poles", largest(theirs.map((one) => gap(one, ours))), name);
      const radius = (poles: readonly Pole[]) => largest(poles.map(({ re, im }) => Math.hypot(re, im)));
      expectWithin("radius", Math.abs(radius(ours) - radius(theirs)), name);
    });
  });

  it("gain and phase margins of roll and pitch of them all, and which are unstable", () => {
    const loops = { stable: 0, unstable: 0 };
    models.forEach((model, k) => {
      AXES.forEach((axis, n) => {
        const { stable, gainUp, gainDown, phase } = marginsOf(
          axisPieces(craftOf(model), trimOf(model), axis, model.gains),
          model.gains[axis],
        );
        const theirs = answers.loops[k].margins[n];
        const radius = largest(answers.loops[k].poles.map(([re, im]) => Math.hypot(re, im)));
        expect(stable, `${k} ${axis}`).toBe(radius < 1);
        loops[stable ? "stable" : "unstable"]++;
        if (!stable) return;
        for (const [own, other, quantity] of [
          [gainUp, theirs.up, "gain"],
          [gainDown, theirs.down, "gain"],
          [phase, theirs.phase, "phase"],
        ] as const) {
          expect(own === null, `${k} ${axis}`).toBe(other === null);
          expectWithin(quantity, Math.abs((own ?? 0) - (other ?? 0)), `${k} ${axis}`);
        }
      });
    });
    expect(loops.stable).toBeGreaterThan(RANDOM);
    expect(loops.unstable).toBeGreaterThan(10);
  });

  it("filter coefficients, against its signal package", () => {
    const stages = [
      ...filters.map((filter, k) => [lowPassStage(filter, filter.rate), answers.filters[k]] as const),
      ...notches.map((notch, k) => [notchStage(notch, notch.rate), answers.notches[k]] as const),
    ];
    stages.forEach(([[b0, b1, b2, a1, a2], { num, den }]) => {
      const padded = (list: readonly number[]) => [...list, 0].slice(0, 3);
      const wanted = [...padded(num), ...padded(den).slice(1)];
      expectWithin("coefficients", largest([b0, b1, b2, a1, a2].map((value, n) => value - wanted[n])));
    });
  });

  it("small steps of the command on every shipped model, and one late by a fraction of a period: one physics step a period, and sixteen", () => {
    steps.forEach((trial, k) => {
      const wanted = answers.steps[k];
      const off = (substeps: number) =>
        largest(simulatedTrace(trial, substeps).map((rate, n) => rate / STEP - wanted[n]));
      const name = `${trial.airframe.name} ${trial.airframe.version} ${trial.axis}`;
      expect(largest(wanted), name).toBeGreaterThan(0.5);
      expectWithin("coarseStep", off(1), name);
      expectWithin("fineStep", off(16), name);
    });
  });

  it("whole trials into the limits, between samples by lsode", () => {
    busy.forEach((trial, k) => {
      const wanted = answers.trials[k];
      const off = (substeps: number) => largest(simulatedTrace(trial, substeps).map((rate, n) => rate - wanted[n]));
      expect(largest(wanted)).toBeGreaterThan(ROLL);
      expectWithin("coarseTrial", off(1) / ROLL);
      expectWithin("fineTrial", off(16) / ROLL);
    });
  });

  it("an open-loop trial by ode45", () => {
    const ends = byLoop(open, 64);
    const wanted = answers.openLoopTrials[0];
    const off = ends.flatMap((states, k) => states.map((value, n) => value / (wanted[k][n] as number) - 1));
    expectWithin("openLoopTrial", largest(off));
  });

  it("the document prints what was seen", () => {
    if (process.env.GAINSCAPE_WRITE_TRUST !== undefined) print("test/trust/checks.md", octaveTable(errors), "octave");
    expect(Math.min(...Object.values(errors)), "every quantity was asked").toBeGreaterThan(0);
  });
});
