// The measures of a stop, read from step responses whose terms are known.
import { stopResponse } from "../../../src/response/stop.js";
import { sampled, secondOrder, simulated, stopOf } from "../../response/traces.js";
import { alike, type Check, type Group } from "../check.js";

const PERIOD = 0.001; // s
const LEVEL = 8.7; // rad/s

const read = (step: Float64Array, final = 1) =>
  stopResponse(stopOf(step, LEVEL, final), LEVEL, 0, 0, step.length, PERIOD);
const second = (z: number, wn: number, seconds: number) => read(sampled(secondOrder(z, wn), seconds, PERIOD));
const number = (value: unknown): number => (typeof value === "number" ? value : Number.NaN);

const IEEE = "IEEE Std 181 terms on the closed form";
const overshoot = { unit: "%", within: { unit: 5e-4 } };
const rise = { unit: "ms", within: { unit: 0.1 } };
// The first sample that stays inside the band: up to one period late.
const settling = { unit: "ms", within: { unit: 1.1 } };

const TABLE: readonly (readonly [number, number, number, number])[] = [
  [0.1, 72.9248, 1.1042, 28.9679],
  [0.3, 37.2326, 1.3213, 10.1371],
  [0.5, 16.3034, 1.6376, 5.2891],
  [0.7, 4.5988, 2.1262, 2.8998],
];

const fourth = () => {
  const slope = ([a, b, c, d]: readonly number[]) => [b, c, d, 1 - 2 * a - 6.5 * b - 5 * c - 1.65 * d];
  return read(
    simulated(4, slope, ([a, b, c]) => 5 * a + 5 * b + c, 60, PERIOD),
    2.5,
  );
};

export const STEP_RESPONSE: Group = {
  title: "Step response",
  checks: [
    ...TABLE.flatMap(([z, over, rises, settles]): Check[] => {
      const at = () => second(z, 1, settles + 10);
      const rest = { source: IEEE, status: "recomputed" } as const;
      return [
        ...alike({ ...rest, ...overshoot }, [[`damping ${z}: overshoot`, over, () => at().overshoot]]),
        ...alike({ ...rest, ...rise }, [[`damping ${z}: 10 to 90 %`, 1000 * rises, () => number(at().rise)]]),
        ...alike({ ...rest, ...settling }, [
          [`damping ${z}: settling to 5 %`, 1000 * settles, () => number(at().settling)],
        ]),
      ];
    }),
    ...alike(
      { source: "K. Ogata, Modern Control Engineering, example 5-1", status: "from memory; recomputed", ...overshoot },
      [["damping 0.6, 5 rad/s: overshoot", 9.478022, () => second(0.6, 5, 4).overshoot]],
    ),
    ...alike(
      {
        source: "N.S. Nise, Control Systems Engineering, example 4.5",
        status: "from memory; recomputed",
        ...overshoot,
      },
      [["100/(s^2+15s+100): overshoot", 2.837544, () => second(0.75, 10, 3).overshoot]],
    ),
    ...alike(
      { source: "K.J. Astrom and R.M. Murray, Feedback Systems", status: "from memory; recomputed", ...overshoot },
      [["damping 0.7071: overshoot", 4.3214, () => second(Math.SQRT1_2, 1, 20).overshoot]],
    ),
    ...alike(
      { source: "a manual's fourth-order example, on a fine grid", status: "quoted; recomputed", ...overshoot },
      [["fourth order with zeros: overshoot", 7.51299, () => fourth().overshoot]],
    ),
    ...alike({ source: "a manual's fourth-order example, on a fine grid", status: "quoted; recomputed", ...rise }, [
      ["fourth order with zeros: 10 to 90 %", 3843.42, () => number(fourth().rise)],
    ]),
  ],
};
