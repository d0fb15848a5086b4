// Models that keep every rule of the format and are like no craft on earth.
import fc from "fast-check";
import { craftUnder, GRAVITY, STANDARD_DAY } from "../../src/airframe/craft.js";
import { parseAirframe } from "../../src/airframe/resolve.js";
import { trimAt } from "../../src/airframe/trim.js";
import { readYaml } from "../../src/files/yaml.js";

/** Spread evenly over the powers of ten. */
const between = (least: number, most: number, unit: string) =>
  fc.nat(1000).map((part) => `${Number((least * (most / least) ** (part / 1000)).toPrecision(4))} ${unit}`.trim());

const percent = (most: number) => between(0.01, most, "%");
const stages = fc.array(fc.record({ order: fc.integer({ min: 1, max: 2 }), cutoff: between(5, 240, "Hz") }), {
  maxLength: 4,
});

const notches = fc.array(fc.record({ centre: between(10, 240, "Hz"), width: between(1, 240, "Hz") }), { maxLength: 4 });

/** Of what few models have: null in four of five. */
const seldom = <T>(drawn: fc.Arbitrary<T>) => fc.option(drawn, { freq: 1 });

/** Rows at one to five throttles. */
const rising = <T extends object>(row: fc.Arbitrary<T>) =>
  fc
    .array(row, { minLength: 1, maxLength: 5 })
    .map((rows) => rows.map((one, k) => ({ throttle: `${15 + 20 * k} %`, ...one })));

/** The second one seldom: it takes long. */
const mostly = <T>(first: fc.Arbitrary<T>, second: fc.Arbitrary<T>) =>
  fc.oneof({ weight: 15, arbitrary: first }, { weight: 1, arbitrary: second });

/** A craft from the ends of every range of the schema. */
export const extreme = fc.record({
  /** Of what full throttle lifts at sea level. */
  share: between(0.02, 0.25, ""),
  xx: between(1e-8, 1, "kg m^2"),
  yy: between(0.5, 2, ""),
  arm: between(0.8, 3, ""),
  diameter: between(2, 20, "in"),
  ct: between(0.04, 0.25, ""),
  advance: between(0.1, 3, ""),
  merit: between(0.25, 0.8, ""),
  propeller: between(1e-9, 1e-2, "kg m^2"),
  kv: between(50, 30_000, "rpm/V"),
  resistance: between(0.001, 10, "ohm"),
  bell: between(1e-9, 1e-2, "kg m^2"),
  cells: fc.integer({ min: 1, max: 14 }),
  pack: between(0.1, 2000, "mohm"),
  noise: between(1e-4, 1, "deg/s/sqrt(Hz)"),
  lowPass: stages,
  slopeFilter: stages,
  vibration: fc.array(fc.record({ harmonic: between(0.1, 20, ""), at_hover: between(0.1, 500, "deg/s") }), {
    maxLength: 8,
  }),
  rotors: fc.integer({ min: 4, max: 8 }),
  idle: percent(30),
  substeps: mostly(fc.integer({ min: 1, max: 2 }), fc.integer({ min: 3, max: 16 })),
  integralLimit: percent(100),
  wash: fc.record({ rms: percent(60), loss: percent(80), revolutions: between(20, 50, ""), correlation: percent(100) }),
  rate: mostly(between(500, 4000, "Hz"), between(4000, 32_000, "Hz")),
  latency: between(0.01, 20, "ms"),
  i: between(0.1, 5000, "%/(100 deg)"),
  p: between(0.1, 300, "%/(100 deg/s)"),
  d: between(0.01, 100, "%/(1000 deg/s^2)"),
  notch: notches,
  slopeNotch: notches,
  schedule: seldom(rising(fc.record({ p: between(0.05, 20, ""), i: between(0.05, 20, ""), d: between(0.05, 20, "") }))),
  commandLowPass: stages,
  ahead: seldom(
    fc.record({ rate: between(0.01, 300, "%/(100 deg/s)"), slope: between(0.001, 100, "%/(1000 deg/s^2)") }),
  ),
  /** Share of a full cell's 4.2 V. */
  nominal: seldom(between(0.5, 2, "")),
  packCutoff: between(0.01, 240, "Hz"),
  bend: seldom(fc.record({ command: percent(99), duty: percent(99) })),
  /** Whether the model declares what holds pitch and yaw, or leaves them to the plan and alone: most such gains hold nothing. */
  declared: fc.nat(3).map((draw) => draw === 0),
  /** Of the gyro's chain or of D's. */
  moving: seldom(
    fc.record({
      place: fc.constantFrom("sensing", "controller"),
      corners: rising(fc.record({ cutoff: between(5, 240, "Hz") })),
      order: fc.integer({ min: 1, max: 2 }),
      notch: fc.record({ harmonic: between(0.1, 20, ""), width: between(2, 100, "%"), lowest: between(10, 240, "Hz") }),
    }),
  ),
});

export type Extreme = typeof extreme extends fc.Arbitrary<infer T> ? T : never;

/** The text of a model. What every one must keep: discs that do not touch, a propeller that is no perpetual motion, a body that can be. */
function modelOf(x: Extreme, mass: string): string {
  const metres = 0.0254 * Number.parseFloat(x.diameter) * Number(x.arm);
  const arm = `${metres.toPrecision(4)} m`;
  const cp = (Math.sqrt(2 / Math.PI) * Number(x.ct) ** 1.5) / Number(x.merit);
  const xx = Number.parseFloat(x.xx);
  const inertia = `xx: ${x.xx}, yy: ${(xx * Number(x.yy)).toExponential(3)} kg m^2, zz: ${x.xx}`;
  return modelText(x, { mass, arm, cp: cp.toPrecision(4), inertia });
}

const modelText = (
  x: Extreme,
  { mass, arm, cp, inertia }: Record<"mass" | "arm" | "cp" | "inertia", string>,
): string => `format: gainscape.airframe/1
name: Extreme
version: r1
title: like nothing on earth
frame: {mass: ${mass}, centre_of_mass: [0 mm, 0 mm, 0 mm], inertia: {${inertia}}}
rotors:
${around(x.rotors, Number.parseFloat(arm))}
propeller: {diameter: ${x.diameter}, blades: 2, ct: ${x.ct}, cp: ${cp}, zero_thrust_advance: ${x.advance}, inertia: ${x.propeller}}
motor: {kv: ${x.kv}, resistance: ${x.resistance}, no_load_current: 0.01 A, bell_inertia: ${x.bell}}
pack: {cells: ${x.cells}, capacity: 1300 mAh, resistance: ${x.pack}}
sensing: {noise: ${x.noise}, ${movingKeys(x, "sensing")
  .map((key) => `${key}, `)
  .join("")}low_pass: ${flow(x.lowPass)}, notch: ${flow(x.notch)}, vibration: ${flow(x.vibration)}}
controller:
  rate: ${x.rate}
  latency: ${x.latency}
  idle: ${x.idle}
  substeps: ${x.substeps}
  integral_limit: ${x.integralLimit}
  rate_derivative_filter: ${flow(x.slopeFilter)}
  rate_derivative_notch: ${flow(x.slopeNotch)}
  command_low_pass: ${flow(x.commandLowPass)}
${movingKeys(x, "controller")
  .map((key) => `  ${key}\n`)
  .join(
    "",
  )}${featureLines(x)}  gains: {roll: {i: ${x.i}}, ${x.declared ? `pitch: {p: ${x.p}, i: ${x.i}, d: ${x.d}}, yaw: {p: ${x.p}, i: ${x.i}}` : `pitch: {i: ${x.i}}, yaw: {p: 0 %/(100 deg/s), i: 0 %/(100 deg)}`}}
wash: ${flow([x.wash]).slice(1, -1)}
`;

/** Filters that move, of one chain. */
function movingKeys({ moving }: Extreme, place: "sensing" | "controller"): string[] {
  if (moving?.place !== place) return [];
  const { order, corners, notch } = moving;
  const [lowPass, tracking] =
    place === "sensing"
      ? ["low_pass_schedule", "tracking_notch"]
      : ["rate_derivative_filter_schedule", "rate_derivative_tracking_notch"];
  return [`${lowPass}: ${flow([{ order, corners: flow(corners) }])}`, `${tracking}: ${flow([notch])}`];
}

/** A line for each feature that the controller has. */
function featureLines({ schedule, ahead, nominal, packCutoff, bend, cells }: Extreme): string {
  const group = (row: object) => flow([row]).slice(1, -1);
  const volts = (share: string) => `${(4.2 * cells * Number(share)).toPrecision(4)} V`;
  const table = (row: object) => flow([{ command: "0 %", duty: "0 %" }, row, { command: "100 %", duty: "100 %" }]);
  return [
    schedule === null ? "" : `  gain_schedule: ${flow(schedule)}\n`,
    ahead === null ? "" : `  feed_forward: {roll: ${group(ahead)}, pitch: ${group(ahead)}, yaw: ${group(ahead)}}\n`,
    nominal === null ? "" : `  pack_compensation: {nominal: ${volts(nominal)}, cutoff: ${packCutoff}}\n`,
    bend === null ? "" : `  duty_table: ${table(bend)}\n`,
  ].join("");
}

/** Rows of values that are written without quotes. */
const flow = (rows: readonly object[]): string =>
  `[${rows
    .map(
      (row) =>
        `{${Object.entries(row)
          .map(([key, value]) => `${key}: ${value}`)
          .join(", ")}}`,
    )
    .join(", ")}]`;

/** Rotors evenly about the craft, none nearer to its neighbour than two arms: four stand as a cross of `arm`. */
function around(count: number, arm: number): string {
  const radius = (arm * Math.SQRT1_2 * 1.42) / Math.sin(Math.PI / count);
  const rows = Array.from({ length: count }, (_, i) => {
    const angle = (2 * Math.PI * (i + 0.5)) / count;
    const [x, y] = [Math.cos(angle), Math.sin(angle)].map((part) => `${(radius * part).toFixed(4)} m`);
    return `  - {at: [${x}, ${y}, 0 mm], spin: ${i % 2 === 0 ? "ccw" : "cw"}}`;
  });
  return rows.join("\n");
}

export function readExtreme(craft: Extreme, mass: string) {
  const document = readYaml("models/extreme.yaml", modelOf(craft, mass));
  return { value: parseAirframe(document), document };
}

/** A mass the craft can carry. */
export function massOf(craft: Extreme): string {
  const bare = craftUnder(readExtreme(craft, "0.02 g").value, STANDARD_DAY);
  const lift = trimAt(bare, 1).speeds.reduce((sum, speed) => sum + bare.thrustStatic * speed * speed, 0);
  return `${((lift / GRAVITY) * Number(craft.share)).toPrecision(4)} kg`;
}
