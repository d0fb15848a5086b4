// An invented climb for the invented map: shapes and sizes a real one has, nothing simulated.
import type { StabilityMap } from "../../src/map/format.js";
import type { Ladder, LadderManoeuvre, LadderStep, LadderTune } from "../../src/map/ladder-format.js";
import type { Axis } from "../../src/sweep/sweep.js";
import { fixture } from "./fixture.js";

const PERIOD = 0.005;
const stop = (axis: Axis, condition: string): LadderManoeuvre => ({
  script: axis === "roll" ? "roll-stop" : "flip-stop",
  title: axis === "roll" ? "Hard stop from a roll" : "Hard stop from a flip",
  kind: "stop",
  axis,
  throttle: 32,
  rate: 500,
  condition,
  from: -0.0975,
  period: PERIOD,
  command: Array.from({ length: 120 }, (_, k) => (k < 16 ? 500 : k < 20 ? 500 - 125 * (k - 15) : 0)),
});
const still = (axis: Axis, condition: string, kind: "wobble" | "blip"): LadderManoeuvre => ({
  ...stop(axis, condition),
  script: kind === "wobble" ? "prop-wash-turn" : "punch-out",
  title: kind === "wobble" ? "Sharp turn into prop wash" : "Punch-out",
  kind,
  rate: kind === "wobble" ? 200 : 0,
  from: 0.0025,
  command: Array.from({ length: 200 }, () => 0),
});

const manoeuvres: LadderManoeuvre[] = ["fresh pack", "tired pack"].flatMap((condition) =>
  (["roll", "pitch"] as const).flatMap((axis) => [
    stop(axis, condition),
    still(axis, condition, "wobble"),
    still(axis, condition, "blip"),
  ]),
);

interface LadderCase {
  readonly angle: number;
  readonly hertz: number;
  readonly back: number;
  readonly rebounds: number;
}

function tune(
  axis: Axis,
  condition: string,
  kinds: readonly LadderManoeuvre["kind"][],
  p: number,
  d: number,
  ladderCase: LadderCase,
): LadderTune {
  const { angle, hertz, back, rebounds } = ladderCase;
  const of = (kind: string) =>
    manoeuvres.findIndex((one) => one.axis === axis && one.condition === condition && one.kind === kind);
  const falling = (t: number) =>
    t < 0 ? 500 : 500 * Math.exp(-30 * t) - 5 * back * Math.exp(-8 * t) * Math.sin(2 * Math.PI * hertz * t);
  const swing = (t: number) => 1.4 * angle * Math.sin(2 * Math.PI * hertz * t) * (1 - 0.3 * t);
  return {
    p,
    d,
    own: null,
    trials: kinds.map((kind) => ({
      manoeuvre: of(kind),
      rate: Array.from({ length: kind === "stop" ? 120 : 200 }, (_, k) => falling(k * PERIOD - 0.0975)),
      angle: kind === "stop" ? null : Array.from({ length: 200 }, (_, k) => swing(k * PERIOD)),
    })),
    measures: {
      ...(kinds.includes("stop")
        ? { overshoot: back, rebounds, settling: 400 / p, ringFrequency: rebounds > 1 ? hertz * 2 : null }
        : {}),
      ...(kinds.includes("wobble") ? { wobbleAngle: angle, wobbleFrequency: hertz } : {}),
      ...(kinds.includes("blip") ? { kick: angle / 2 } : {}),
      heat: 1 + 0.08 * d,
    },
  };
}

const step = (
  stage: LadderStep["stage"],
  condition: string,
  kinds: readonly LadderManoeuvre["kind"][],
  p: number,
  d: number,
  ladderCase: LadderCase,
): LadderStep => ({
  stage,
  condition,
  axes: {
    roll: tune("roll", condition, kinds, p, d, ladderCase),
    pitch: tune("pitch", condition, kinds, 1.1 * p, 1.05 * d, {
      ...ladderCase,
      angle: 0.8 * ladderCase.angle,
      back: 0.9 * ladderCase.back,
    }),
  },
});

const BOTH = ["stop", "wobble"] as const;

const ladder: Ladder = {
  manoeuvres,
  steps: [
    step("p", "fresh pack", BOTH, 8, 1, { angle: 4, hertz: 3, back: 24, rebounds: 3 }),
    step("p", "fresh pack", BOTH, 11, 1, { angle: 2.6, hertz: 5, back: 21, rebounds: 2 }),
    step("p", "fresh pack", BOTH, 15, 1, { angle: 1.4, hertz: 7, back: 20, rebounds: 2 }),
    step("p", "fresh pack", BOTH, 20.6, 1, { angle: 0.9, hertz: 9, back: 22, rebounds: 2 }),
    step("d", "fresh pack", BOTH, 20.6, 1.8, { angle: 0.9, hertz: 9, back: 14, rebounds: 1 }),
    step("d", "fresh pack", BOTH, 20.6, 2.4, { angle: 0.9, hertz: 9, back: 8, rebounds: 1 }),
    step("d", "fresh pack", BOTH, 20.6, 2.94, { angle: 0.9, hertz: 9, back: 4, rebounds: 0 }),
    step("check", "tired pack", ["stop"], 20.6, 2.94, { angle: 0.9, hertz: 9, back: 5, rebounds: 0 }),
    step("check", "tired pack", ["wobble"], 20.6, 2.94, { angle: 1.1, hertz: 8, back: 5, rebounds: 0 }),
    step("check", "tired pack", ["blip"], 20.6, 2.94, { angle: 0.6, hertz: 8, back: 5, rebounds: 0 }),
  ],
};

/** The invented map with the invented climb. */
export const climbing = (): StabilityMap => ({ ...fixture(), ladder });
