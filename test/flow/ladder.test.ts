import { beforeAll, describe, expect, it } from "vitest";
import { MEASURE_IDS, type MeasureId } from "../../src/base/measures.js";
import { D_UNIT, P_UNIT } from "../../src/base/units.js";
import { withLadder } from "../../src/flow/ladder.js";
import type { StabilityMap } from "../../src/map/format.js";
import type { Ladder, LadderManoeuvre } from "../../src/map/ladder-format.js";
import type { Plan, Variant } from "../../src/plan/plan.js";
import { taskRunner } from "../../src/run/task-runner.js";
import { type Small, smallMap } from "../fixtures/report-map.js";

let small: Small;
let ladder: Ladder;
beforeAll(async () => {
  small = await smallMap();
  ladder = small.map.ladder as Ladder;
});

const variantOf = (plan: Plan, { script, throttle, condition, axis }: LadderManoeuvre): Variant =>
  plan.variants.find(
    (one) =>
      one.script.name === script &&
      one.axis === axis &&
      Math.abs(100 * one.throttle - throttle) < 1e-6 &&
      plan.conditions[one.condition]?.condition.name === condition,
  ) as Variant;

/** The plan with every stop at another rate, each still in trim. */
const planOf = (plan: Plan, rate: number): Plan => ({
  ...plan,
  variants: plan.variants.map((one) => (one.script.kind === "stop" ? { ...one, rate } : one)),
});

const everyTrial = () =>
  ladder.steps.flatMap((step) =>
    Object.values(step.axes).flatMap((tune) =>
      tune.trials.map((trial) => ({
        step,
        tune,
        trial,
        manoeuvre: ladder.manoeuvres[trial.manoeuvre] as LadderManoeuvre,
      })),
    ),
  );

describe("the ladder of a map", () => {
  it("climbs on the fresh pack and checks on the tired one", () => {
    const stages = ladder.steps.map(({ stage, condition }) => `${stage} ${condition}`);
    expect(stages.slice(-3)).toEqual(Array(3).fill("check tired pack"));
    expect(new Set(stages.slice(0, -3).map((words) => words.slice(2)))).toEqual(new Set(["fresh pack"]));
    expect(everyTrial().every(({ step, manoeuvre }) => step.condition === manoeuvre.condition)).toBe(true);
  });

  it("ends its climb at the starting tunes", () => {
    const last = ladder.steps.findLast(({ stage }) => stage !== "check");
    for (const axis of ["roll", "pitch"] as const) {
      const { p, d, own } = small.map.axes[axis].start as NonNullable<StabilityMap["axes"]["roll"]["start"]>;
      expect(last?.axes[axis]).toMatchObject({ p, d });
      expect(last?.axes[axis]?.own?.p).toBeCloseTo(own?.p ?? 0, 8);
      expect(last?.axes[axis]?.own?.d).toBeCloseTo(own?.d ?? 0, 8);
    }
  });

  it("asks for more of each manoeuvre with every step in P, and for all of it from there on", () => {
    const asked = (id: string, of: (manoeuvre: LadderManoeuvre) => number | undefined) =>
      ladder.steps.flatMap(({ axes }) =>
        (axes.roll?.trials ?? [])
          .map(({ manoeuvre }) => ladder.manoeuvres[manoeuvre] as LadderManoeuvre)
          .filter(({ script }) => script === id)
          .map((manoeuvre) => Number(of(manoeuvre)?.toPrecision(3))),
      );
    expect(asked("roll-stop", ({ rate }) => rate)).toEqual([200, 300, 400, ...Array(5).fill(500)]);
    expect(asked("wash-turn", ({ rate }) => rate)).toEqual([120, 180, 240, ...Array(5).fill(300)]);
    // 1.25 times the induced velocity of hover, sqrt(m g / (2 rho pi R^2)) a rotor (momentum theory, in any textbook).
    const { mass, rotors, propeller } = small.plan.airframe;
    const disc = (Math.PI / 4) * propeller.diameter ** 2;
    const induced = Math.sqrt((mass * 9.80665) / rotors.length / (2 * 1.225 * disc));
    const sinking = asked("wash-turn", ({ descent }) => descent);
    const expected = [0.4, 0.6, 0.8, ...Array(5).fill(1)].map((share) => share * 1.25 * induced);
    for (const [k, speed] of expected.entries()) expect(sinking[k]).toBeCloseTo(speed, 1);
    expect(everyTrial().every(({ manoeuvre }) => manoeuvre.kind === "wobble" || manoeuvre.descent === undefined)).toBe(
      true,
    );
  });

  it("predicts of a gentler stop what a sweep finds that asks for that rate", () => {
    const slower = planOf(small.plan, (200 / 180) * Math.PI);
    const run = taskRunner(slower);
    const gentle = everyTrial().filter(({ manoeuvre }) => manoeuvre.kind === "stop" && manoeuvre.share === 0.4);
    expect(gentle).toHaveLength(2);
    for (const { tune, manoeuvre } of gentle) {
      const { index } = variantOf(slower, manoeuvre);
      const { values } = run({
        variant: index,
        p: Float64Array.of(tune.p * P_UNIT),
        d: Float64Array.of(tune.d * D_UNIT),
      });
      for (const id of ["overshoot", "rebounds", "settling"] as const)
        expect(tune.measures[id]).toBeCloseTo(values[MEASURE_IDS.indexOf(id)] as number, 9);
    }
  });

  it("reports the measures a run finds for the same trial, and only of oscillations that die out", () => {
    const run = taskRunner(small.plan);
    const shows: Readonly<Record<LadderManoeuvre["kind"], MeasureId>> = {
      stop: "overshoot",
      wobble: "wobbleAngle",
      blip: "kick",
    };
    for (const { tune, manoeuvre } of everyTrial().filter(({ manoeuvre: { share } }) => share === undefined)) {
      const { index } = variantOf(small.plan, manoeuvre);
      const result = run({ variant: index, p: Float64Array.of(tune.p * P_UNIT), d: Float64Array.of(tune.d * D_UNIT) });
      const id = shows[manoeuvre.kind];
      expect(tune.measures[id]).toBeCloseTo(result.values[MEASURE_IDS.indexOf(id)] as number, 9);
      expect(result.outcome[0]).toBe(0);
    }
  });

  it("shows in the picture of a stop the bounce-back it reports", () => {
    for (const { tune, trial, manoeuvre } of everyTrial().filter((one) => one.manoeuvre.kind === "stop")) {
      const level = Math.max(...manoeuvre.command);
      const stopped = Math.ceil(-manoeuvre.from / manoeuvre.period);
      const back = (-100 * Math.min(...trial.rate.slice(stopped))) / level;
      // Samples are means over 5 ms: the peak is a little flatter.
      expect(back).toBeGreaterThan(0.9 * (tune.measures.overshoot ?? 0));
      expect(back).toBeLessThanOrEqual((tune.measures.overshoot ?? 0) + 0.2);
      expect(manoeuvre.command.at(-1)).toBe(0);
      expect(trial.angle).toBe(null);
    }
  });

  it("shows in the picture of a wobble the rms angle it reports", () => {
    for (const { tune, trial } of everyTrial().filter((one) => one.manoeuvre.kind === "wobble")) {
      const angle = trial.angle ?? [];
      const rms = Math.sqrt(angle.reduce((sum, value) => sum + value * value, 0) / angle.length);
      expect(rms / (tune.measures.wobbleAngle ?? 0)).toBeGreaterThan(0.97);
      expect(rms / (tune.measures.wobbleAngle ?? 0)).toBeLessThan(1.03);
    }
  });

  // Common practice, no source: more P comes to rest sooner; D takes the bounce-back away.
  it("shows what the trade knows: sooner at rest with P, less bounce-back with D", () => {
    const values = (stage: string, id: MeasureId) =>
      ladder.steps.filter((step) => step.stage === stage).map(({ axes }) => axes.roll?.measures[id] ?? Number.NaN);
    const times = values("p", "settling");
    const bounces = values("d", "overshoot");
    for (let k = 1; k < times.length; k++) expect(times[k]).toBeLessThan(times[k - 1] as number);
    for (let k = 1; k < bounces.length; k++) expect(bounces[k]).toBeLessThan(bounces[k - 1] as number);
    expect(bounces[0]).toBeLessThan(values("p", "overshoot").at(-1) as number);
  });

  it("leaves a map without a starting tune as it is", () => {
    const { roll, pitch } = small.map.axes;
    const { ladder: _, ...bare } = {
      ...small.map,
      axes: { roll: { ...roll, start: null }, pitch: { ...pitch, start: null } },
    };
    expect(withLadder(small.plan, bare)).toEqual(bare);
  });
});
