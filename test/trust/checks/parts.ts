// Motor, pack, inertia, filters, and published craft.
import type { FilterStage } from "../../../src/airframe/airframe.js";
import { craftUnder, GRAVITY, STANDARD_DAY } from "../../../src/airframe/craft.js";
import { lowPassDelay, lowPassStage } from "../../../src/airframe/filter.js";
import { assemble, invertInertia } from "../../../src/airframe/inertia.js";
import { motorConstant, speedTimeConstant, steadySpeed } from "../../../src/airframe/motor.js";
import { CELL_OPEN_CIRCUIT, openCircuitVolts } from "../../../src/airframe/pack.js";
import { hoverTrim } from "../../../src/airframe/trim.js";
import { movingCells } from "../../../src/kernel/moving-stages.js";
import { throughMovingStages } from "../../../src/kernel/stages.js";
import { publishedAirframe, SETS } from "../../airframe/published-sets.js";
import { onOneAxis } from "../../fixtures/one-axis.js";
import { alike, type Check, type Group } from "../check.js";

const small = {
  motor: { constant: motorConstant(2300), resistance: 0.06, noLoadCurrent: 0.8, bellInertia: 2.6e-6 },
  inertia: 8e-6,
  kQ: 1.457807e-8,
};
const large = {
  motor: { constant: motorConstant(920), resistance: 0.12, noLoadCurrent: 0.5, bellInertia: 2.6e-6 },
  inertia: 3e-5,
  kQ: 7.647554e-8,
};
const speed = ({ motor, kQ }: typeof small, volts: number) => steadySpeed(volts, motor, kQ);
const lag = (one: typeof small, volts: number) => speedTimeConstant(one.motor, one.inertia, one.kQ, speed(one, volts));

const MACHINE = "direct-current machine on a propeller load (M. Drela, MIT 2007), round example values";

export const MOTOR_AND_PACK: Group = {
  title: "Motor and pack",
  checks: [
    ...alike(
      {
        source: `${MACHINE}: torque balance`,
        status: "from memory; recomputed",
        unit: "rad/s",
        within: { share: 1e-6 },
      },
      [
        ["KV 2300 at 7.4 V on a 5-inch propeller", 1635.1076, () => speed(small, 7.4)],
        ["KV 2300 at 14.8 V on a 5-inch propeller", 3073.7087, () => speed(small, 14.8)],
        ["KV 920 at 11.1 V on an 8-inch propeller", 981.5517, () => speed(large, 11.1)],
      ],
    ),
    ...alike(
      { source: `${MACHINE}: linearised`, status: "from memory; recomputed", unit: "s", within: { share: 2e-5 } },
      [
        ["time constant of KV 2300 at 7.4 V", 0.0238825, () => lag(small, 7.4)],
        ["time constant of KV 920 at 11.1 V", 0.028628, () => lag(large, 11.1)],
      ],
    ),
    ...alike(
      {
        source: "Modelica Standard Library, Electrical.Batteries, ExampleData",
        status: "seen in a document",
        unit: "V",
        within: { unit: 1e-9 },
      },
      [0, 0.25, 0.5, 1].map((charge, k) => [
        `cell at rest, ${100 * charge} % charged`,
        [2.499, 3.339, 3.507, 4.2][k],
        () => openCircuitVolts({ cells: 1, capacity: 1, resistance: 0, openCircuit: CELL_OPEN_CIRCUIT }, charge),
      ]),
    ),
  ],
};

const MERIAM = "J.L. Meriam and L.G. Kraige, Dynamics, App. D";
const box = () => assemble([{ shape: "box", mass: 0.2, size: [0.1, 0.06, 0.03], at: [0.3, 0, 0] }]).inertia;
const ORIGIN = [0, 0, 0] as const;

export const INERTIA: Group = {
  title: "Inertia",
  checks: alike({ source: MERIAM, status: "from memory; recomputed", unit: "kg m^2", within: { share: 2e-7 } }, [
    ["box of 0.2 kg, 100 x 60 x 30 mm, about its length", 7.5e-5, () => box().xx],
    ["the same about its height", 2.266667e-4, () => box().zz],
    [
      "cylinder of 30 g, 28 x 20 mm, about its axis",
      2.94e-6,
      () =>
        assemble([{ shape: "cylinder", axis: "z", mass: 0.03, radius: 0.014, length: 0.02, at: ORIGIN }]).inertia.zz,
    ],
    [
      "rod of 50 g, 250 mm, across",
      2.604167e-4,
      () => assemble([{ shape: "rod", axis: "x", mass: 0.05, length: 0.25, at: ORIGIN }]).inertia.zz,
    ],
  ]),
};

const LOW_PASS = { order: 2, cutoff: 100 } as const;

/** Of a filter that moves and stands here, at 1 kHz, so many samples after a pulse. */
function pulseAnswer(stage: FilterStage, sample: number): number {
  const [cells, state] = [Float64Array.from(movingCells(stage, 1000)), new Float64Array(2)];
  const answer = (input: number) => onOneAxis(throughMovingStages, cells, state, input);
  let last = answer(1);
  for (let k = 0; k < sample; k++) last = answer(0);
  return last;
}

function lowestBehindNotch(): number {
  const state = new Float64Array(2);
  const at = (centre: number) =>
    onOneAxis(throughMovingStages, Float64Array.from(movingCells({ centre, width: 0.3 * centre }, 1000)), state, 1);
  for (let k = 0; k < 2000; k++) at(80);
  return Math.min(...Array.from({ length: 1000 }, (_, k) => at(80 + 0.32 * k)));
}

const SCIPY = "SciPy's butter, the first also Octave's";

export const FILTERS: Group = {
  title: "Filters",
  checks: [
    ...alike({ source: SCIPY, status: "recomputed", unit: "", within: { unit: 1e-12 } }, [
      ["100 Hz at 1 kHz: b0", 0.0674552738890719, () => lowPassStage({ order: 2, cutoff: 100 }, 1000)[0]],
      ["100 Hz at 1 kHz: a1", -1.1429805025399011, () => lowPassStage({ order: 2, cutoff: 100 }, 1000)[3]],
      ["100 Hz at 1 kHz: a2", 0.4128015980961888, () => lowPassStage({ order: 2, cutoff: 100 }, 1000)[4]],
      ["100 Hz at 4 kHz: b0", 0.0055427172102807, () => lowPassStage({ order: 2, cutoff: 100 }, 4000)[0]],
      ["90 Hz at 8 kHz: a1", -1.9001124192197263, () => lowPassStage({ order: 2, cutoff: 90 }, 8000)[3]],
    ]),
    ...alike({ source: "bilinear first order, algebra", status: "recomputed", unit: "", within: { unit: 1e-7 } }, [
      ["first order, 100 Hz at 1 kHz: b0", 0.2452373, () => lowPassStage({ order: 1, cutoff: 100 }, 1000)[0]],
      ["first order, 100 Hz at 1 kHz: a1", -0.5095254, () => lowPassStage({ order: 1, cutoff: 100 }, 1000)[3]],
    ]),
    ...alike(
      { source: "derivation: sqrt2/(2 tan(pi fc/fs))", status: "recomputed", unit: "samples", within: { share: 1e-6 } },
      [
        ["delay at rest, 100 Hz at 1 kHz", 2.176251, () => 1000 * lowPassDelay({ order: 2, cutoff: 100 }, 1000)],
        ["delay at rest, 90 Hz at 8 kHz", 19.998698, () => 8000 * lowPassDelay({ order: 2, cutoff: 90 }, 8000)],
      ],
    ),
    ...alike({ source: SCIPY, status: "recomputed", unit: "", within: { unit: 1e-12 } }, [
      ["one that moves, at 100 Hz at 1 kHz: answer to a pulse", 0.0674552738890719, () => pulseAnswer(LOW_PASS, 0)],
      ["the same, one sample later: 2 b0 - a1 b0", 0.21201061062684184, () => pulseAnswer(LOW_PASS, 1)],
    ]),
    ...alike({ source: "SciPy's iirnotch", status: "recomputed", unit: "", within: { unit: 1e-12 } }, [
      [
        "notch that moves, at 150 Hz, 50 Hz wide, at 1 kHz: answer to a pulse",
        0.8632712640026805,
        () => pulseAnswer({ centre: 150, width: 50 }, 0),
      ],
    ]),
    ...alike({ source: "derivation: a steady input rests", status: "recomputed", unit: "", within: { unit: 1e-12 } }, [
      ["a steady rate of 1 behind a notch that goes from 80 Hz to 400 Hz in a second: lowest", 1, lowestBehindNotch],
    ]),
  ],
};

const SOURCES: Readonly<Record<string, string>> = {
  "0.65 kg, slow rotors": "S. Bouabdallah, EPFL thesis 3727 (2007)",
  "0.5 kg": "N. Michael, D. Mellinger, Q. Lindsey and V. Kumar, IEEE RAM 17(3), 2010",
  "0.468 kg": "T. Luukkonen, Aalto University (2011)",
  "4 kg, large rotors": "P. Pounds, R. Mahony and P. Corke, Control Eng. Practice 18 (2010)",
};

export const PUBLISHED_CRAFT: Group = {
  title: "Published craft",
  checks: SETS.flatMap((set): Check[] => {
    const craft = craftUnder(publishedAirframe(set), STANDARD_DAY);
    const rest = {
      source: SOURCES[set.name] ?? "",
      status: "quoted; recomputed",
      unit: "",
      within: { share: 2e-6 },
    } as const;
    // Their figures rest on 9.81 m/s^2.
    const hover = () => (hoverTrim(craft)?.speeds[0] ?? Number.NaN) / Math.sqrt(GRAVITY / 9.81);
    const gain = () => {
      const torque = craft.arms.reduce((sum, [, y]) => sum + Math.abs(y) * 2 * craft.thrustStatic * set.hover, 0);
      return invertInertia(craft.inertia).xx * torque;
    };
    return alike(rest, [
      [`${set.name}: rotor speed in hover, rad/s`, set.hover, hover],
      ...(set.gain === null ? [] : [[`${set.name}: roll acceleration per rotor speed, 1/s`, set.gain, gain] as const]),
    ]);
  }),
};
