// What a model file may hold: format gainscape.airframe/1. Ranges are wide on purpose: they catch a wrong
// unit or a typing error; physics is judged in file-faults.ts and hover-faults.ts.
import { z } from "zod";
import {
  choice,
  count,
  describeValue,
  field,
  measured,
  measuredRatio,
  name,
  quantity,
  ratio,
  words,
} from "../base/fields.js";
import { group, list, wordOr } from "../base/shapes.js";
import {
  CUTOFF,
  DUTY_ROWS,
  GAIN_FACTOR,
  HARMONIC,
  LATENCY,
  MOST_PAIRS,
  NOTCH_CENTRE,
  NOTCH_WIDTH,
  NOTCHES,
  PACK_CUTOFF,
  RATE,
  ROTORS,
  SCHEDULE_ROWS,
  STAGES,
  SUBSTEPS,
  TRACKING_WIDTH,
  VIBRATIONS,
} from "./ranges.js";

const coordinate = () => measured("length", "-2 m", "2 m", "mm");
/** Three coordinates: x forward, y to the left, z up. */
const position = () => list(coordinate(), 3, 3, "lengths (x forward, y left, z up)");
const side = () => measured("length", "0.1 mm", "2 m", "mm");
const mass = () => measured("mass", "0.01 g", "25 kg");
const moment = (least = "1e-10 kg m^2") => measured("inertia", least, "10 kg m^2", "g cm^2");

/** A part stands at one place, or one of it at every rotor. */
const standing = () => wordOr("rotors", position());
const named = { name: words(60), mass: mass() };

const part = z.discriminatedUnion(
  "shape",
  [
    group({ shape: z.literal("box"), ...named, size: list(side(), 3, 3, "lengths"), at: standing() }),
    group({
      shape: z.literal("cylinder"),
      ...named,
      diameter: side(),
      length: side(),
      axis: choice(["x", "y", "z"]).optional(),
      at: standing(),
    }),
    group({ shape: z.literal("rod"), ...named, from: position(), to: standing() }),
    group({ shape: z.literal("point"), ...named, at: standing() }),
  ],
  {
    error: (issue) =>
      issue.code === "invalid_union"
        ? "expected box, cylinder, rod or point"
        : "expected a part: name, shape, mass and where it stands",
  },
);

const frame = group({
  parts: list(part, 1, 200, "parts").optional(),
  mass: mass().optional(),
  centre_of_mass: position().optional(),
  inertia: group({
    xx: moment(),
    yy: moment(),
    zz: moment(),
    xy: moment("-10 kg m^2").optional(),
    xz: moment("-10 kg m^2").optional(),
    yz: moment("-10 kg m^2").optional(),
  }).optional(),
});

const rotor = group({ at: position(), spin: choice(["cw", "ccw"]) });

const propeller = group({
  diameter: measured("length", "0.5 in", "40 in", "in"),
  blades: count(1, 8),
  ct: measuredRatio(0.005, 0.5),
  cp: measuredRatio(0.002, 0.5),
  table: list(
    group({ j: ratio(0, 3), ct: ratio(-0.5, 0.5).optional(), cp: ratio(-0.5, 0.5) }),
    1,
    100,
    "rows",
  ).optional(),
  zero_thrust_advance: measuredRatio(0.1, 3).optional(),
  inertia: moment(),
});

const motor = group({
  kv: measured("speedConstant", "50 rpm/V", "30000 rpm/V"),
  resistance: measured("resistance", "1 mohm", "10 ohm", "mohm"),
  no_load_current: measured("current", "0 A", "20 A", "A"),
  bell_inertia: moment(),
});

const pack = group({
  cells: count(1, 14),
  capacity: quantity("charge", "20 mAh", "100 Ah", "mAh"),
  resistance: measured("resistance", "0.1 mohm", "2 ohm", "mohm"),
  open_circuit: list(
    group({ charge: quantity("share", "0 %", "100 %"), voltage: quantity("voltage", "2 V", "4.5 V") }),
    2,
    101,
    "rows",
  ).optional(),
});

const lowPass = () =>
  list(
    group({ order: count(1, 2), cutoff: quantity("frequency", ...CUTOFF, "Hz") }),
    ...STAGES,
    "low-pass stages",
  ).optional();

const notch = () =>
  list(
    group({ centre: quantity("frequency", ...NOTCH_CENTRE, "Hz"), width: quantity("frequency", ...NOTCH_WIDTH, "Hz") }),
    ...NOTCHES,
    "notches",
  ).optional();

const lowPassSchedule = () =>
  list(
    group({
      order: count(1, 2),
      corners: list(
        group({ throttle: quantity("share", "0 %", "100 %"), cutoff: quantity("frequency", ...CUTOFF, "Hz") }),
        ...SCHEDULE_ROWS,
        "rows",
      ),
    }),
    ...STAGES,
    "low-pass stages",
  ).optional();

const trackingNotch = () =>
  list(
    group({
      harmonic: ratio(...HARMONIC),
      width: quantity("share", ...TRACKING_WIDTH),
      lowest: quantity("frequency", ...NOTCH_CENTRE, "Hz"),
    }),
    ...NOTCHES,
    "notches",
  ).optional();

const sensing = group({
  noise: measured("noiseDensity", "0 deg/s/sqrt(Hz)", "1 deg/s/sqrt(Hz)"),
  low_pass: lowPass(),
  notch: notch(),
  low_pass_schedule: lowPassSchedule(),
  tracking_notch: trackingNotch(),
  vibration: list(
    group({ harmonic: ratio(...HARMONIC), at_hover: measured("rate", "0 deg/s", "500 deg/s") }),
    ...VIBRATIONS,
    "vibration lines",
  ).optional(),
});

const p = () => quantity("pGain", "0 %/(100 deg/s)", "1000 %/(100 deg/s)");
const i = () => quantity("iGain", "0 %/(100 deg)", "5000 %/(100 deg)");
const d = () => quantity("dGain", "0 %/(1000 deg/s^2)", "500 %/(1000 deg/s^2)");
const swept = group({ p: p().optional(), i: i(), d: d().optional() });

const ahead = () => group({ rate: p().optional(), slope: d().optional() }).optional();

const unitOfP = () => quantity("pGain", "1e-6 %/(100 deg/s)", "1000 %/(100 deg/s)");
const unitOfI = () => quantity("iGain", "1e-6 %/(100 deg)", "5000 %/(100 deg)");

const controller = group({
  rate: quantity("frequency", ...RATE),
  latency: measured("duration", ...LATENCY, "ms"),
  idle: quantity("share", "0 %", "30 %"),
  substeps: count(...SUBSTEPS).optional(),
  rate_derivative_filter: lowPass(),
  rate_derivative_notch: notch(),
  rate_derivative_filter_schedule: lowPassSchedule(),
  rate_derivative_tracking_notch: trackingNotch(),
  integral_limit: quantity("share", "0 %", "100 %").optional(),
  gains: group({ roll: swept, pitch: swept, yaw: group({ p: p(), i: i() }) }),
  command_low_pass: lowPass(),
  feed_forward: group({ roll: ahead(), pitch: ahead(), yaw: ahead() }).optional(),
  pack_compensation: group({
    nominal: quantity("voltage", "2 V", "64 V"),
    cutoff: quantity("frequency", ...PACK_CUTOFF, "Hz"),
  }).optional(),
  duty_table: list(
    group({ command: quantity("share", "0 %", "100 %"), duty: quantity("share", "0 %", "100 %") }),
    ...DUTY_ROWS,
    "rows",
  ).optional(),
  gain_schedule: list(
    group({
      throttle: quantity("share", "0 %", "100 %"),
      p: ratio(...GAIN_FACTOR).optional(),
      i: ratio(...GAIN_FACTOR).optional(),
      d: ratio(...GAIN_FACTOR).optional(),
    }),
    ...SCHEDULE_ROWS,
    "rows",
  ).optional(),
  one_unit: group({
    p: unitOfP(),
    i: unitOfI().optional(),
    d: quantity("dGain", "1e-6 %/(1000 deg/s^2)", "500 %/(1000 deg/s^2)"),
    yaw: group({ p: unitOfP(), i: unitOfI().optional() }).optional(),
  }).optional(),
});

const wash = group({
  rms: measured("share", "0 %", "60 %").optional(),
  loss: measured("share", "0 %", "80 %").optional(),
  revolutions: measuredRatio(20, 50).optional(),
  correlation: measured("share", "0 %", "100 %").optional(),
});

/** SHA-256, as `gainscape fit` writes it. */
const digest = () =>
  field(
    (written) =>
      typeof written === "string" && /^[0-9a-f]{64}$/.test(written)
        ? { value: written }
        : { fault: `expected 64 digits of a SHA-256, found ${describeValue(written)}` },
    { type: "string", pattern: "^[0-9a-f]{64}$" },
  );

/** What a fit has taken into account: the same flight again would count twice. */
const flight = group({ title: words(120), digest: digest(), log: digest().optional() });
const key = () => words(120);
const pair = group({ one: key(), other: key(), correlation: ratio(-1, 1) });
const correlations = list(pair, 1, MOST_PAIRS, "pairs of numbers");

export const AIRFRAME_FORMAT = "gainscape.airframe/1";

export const airframeSchema = group({
  format: choice([AIRFRAME_FORMAT]),
  name: name(),
  version: name(),
  title: words(120),
  notes: words(4000, "lines").optional(),
  frame,
  rotors: list(rotor, ...ROTORS, "rotors"),
  propeller,
  motor,
  pack,
  sensing,
  controller,
  wash: wash.optional(),
  loop_gain: measuredRatio(0.1, 10).optional(),
  flights: list(flight, 1, 1000, "flights").optional(),
  correlations: correlations.optional(),
});

export type AirframeFile = z.output<typeof airframeSchema>;
export type PartFile = z.output<typeof part>;
