// What a builder knows, format gainscape.answers/1: the only things `new` asks.
import type { z } from "zod";
import { RATE } from "../airframe/ranges.js";
import { choice, count, field, name, quantity, words } from "../base/fields.js";
import type { Path } from "../base/problem.js";
import { type Reading, readQuantity } from "../base/quantity.js";
import { group, list } from "../base/shapes.js";
import { quantityText } from "../base/units.js";
import { LAYOUTS, rotorPlaces } from "./layout.js";

export const ANSWERS_FORMAT = "gainscape.answers/1";

const weight = (least: string, most: string) => quantity("mass", least, most, "g");

/** A cutoff in Hz, or null where there is no such filter. */
const cutoff = () =>
  field(
    (written): Reading<number | null> => {
      if (written === "none") return { value: null };
      const reading = readQuantity(written, "frequency", "Hz");
      if ("fault" in reading) return { fault: `${reading.fault} or none` };
      if (reading.value >= 5 && reading.value <= 16e3) return reading;
      return { fault: `${String(written).trim()} is out of range, expected 5 Hz to 16 kHz or none` };
    },
    { type: "string", description: "a frequency, 5 Hz to 16 kHz, or none" },
  );

export const answersSchema = group({
  format: choice([ANSWERS_FORMAT]),
  name: name(),
  version: name().optional(),
  title: words(120).optional(),
  layout: choice(LAYOUTS),
  distances: list(quantity("length", "30 mm", "2 m", "mm"), 1, 2, "distances between motors"),
  ducts: choice(["yes", "no"]).optional(),
  weight: weight("10 g", "25 kg"),
  pack: group({
    cells: count(1, 14),
    capacity: quantity("charge", "20 mAh", "100 Ah", "mAh"),
    weight: weight("1 g", "25 kg"),
  }),
  propeller: group({
    diameter: quantity("length", "1 in", "40 in", "in"),
    pitch: quantity("length", "0.3 in", "40 in", "in"),
    blades: count(2, 8),
    weight: weight("0.05 g", "1 kg").optional(),
  }),
  motor: group({
    kv: quantity("speedConstant", "50 rpm/V", "30000 rpm/V"),
    weight: weight("0.5 g", "2 kg").optional(),
    bell: group({
      diameter: quantity("length", "4 mm", "200 mm", "mm"),
      length: quantity("length", "3 mm", "200 mm", "mm"),
    }).optional(),
  }),
  loop_rate: quantity("frequency", ...RATE),
  gyro_low_pass: cutoff(),
  derivative_low_pass: cutoff(),
  one_unit: group({
    p: quantity("pGain", "1e-6 %/(100 deg/s)", "1000 %/(100 deg/s)"),
    d: quantity("dGain", "1e-6 %/(1000 deg/s^2)", "500 %/(1000 deg/s^2)"),
  }).optional(),
});

export type Answers = z.output<typeof answersSchema>;

export interface AnswerFault {
  readonly path: Path;
  readonly message: string;
}

/** Answers that contradict each other, though each could be right. */
export function answerFaults(answers: Answers): AnswerFault[] {
  const { layout, distances, propeller, motor, loop_rate: rate } = answers;
  const faults: AnswerFault[] = [];
  if (distances.length === 2 && !layout.startsWith("quadrotor"))
    faults.push({
      path: ["distances"],
      message: `2 distances, expected one for a ${layout}: from a motor to the one opposite`,
    });
  if (motor.weight === undefined && motor.bell === undefined)
    faults.push({
      path: ["motor", "weight"],
      message: "missing; the motor's weight or its bell's diameter and length is needed",
    });
  const ratio = propeller.pitch / propeller.diameter;
  if (ratio < 0.15 || ratio > 1.5)
    faults.push({
      path: ["propeller", "pitch"],
      message: `pitch is ${ratio.toFixed(2)} of the diameter, propellers for hovering lie between 0.15 and 1.5`,
    });
  for (const key of ["gyro_low_pass", "derivative_low_pass"] as const)
    if ((answers[key] ?? 0) >= rate / 2)
      faults.push({ path: [key], message: `not below half the loop rate, ${quantityText(rate / 2, "frequency")}` });
  return [...faults, ...touching(answers)];
}

function touching({ layout, distances, propeller }: Answers): AnswerFault[] {
  const places = rotorPlaces(layout, distances);
  const apart = places.flatMap((one, at) =>
    places.slice(at + 1).map((other) => Math.hypot(one.x - other.x, one.y - other.y)),
  );
  const least = Math.min(...apart);
  if (least > propeller.diameter) return [];
  const message = `two motors are ${quantityText(least, "length", "mm")} apart, propellers of ${quantityText(propeller.diameter, "length", "mm")} would hit each other`;
  return [{ path: ["distances"], message }];
}
