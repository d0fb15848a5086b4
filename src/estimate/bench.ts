// What a bench table says of a motor and its propeller, by least squares; straight lines all of them:
//   thrust over speed squared           is the constant of ct,
//   volts over speed = Ke + R i / w      gives KV and resistance,
//   i / w^2 = Q / w^2 / Kt + i0 / w^2    the no-load current, where torque was measured,
//   i / w^2 = kQ / Kt + i0 / w^2         likewise and with it cp, where it was not.
// Meters err by a share of what they read, so each line is fitted twice: the second time every row as a share of the first.
import { exp, ln } from "../base/elementary.js";
import { studentQuantile } from "../base/student.js";
import type { BenchRow, BenchTable } from "./bench-table.js";
import type { Estimate } from "./estimate.js";
import type { Benched, BenchKey } from "./numbers.js";
import { type Fit, leastSquares } from "./regression.js";

/** Accuracy of the meters as a share, with coverage factor 2: common practice, no source. No residual tells of it. */
export const METERS = {
  thrust: 0.02,
  torque: 0.03,
  speed: 0.005,
  volts: 0.01,
  current: 0.02,
  air: 0.03,
  duty: 0.02,
} as const;

const DENSITY = 1.225; // kg/m^3, as standard air at sea level; a day's own is within METERS.air
const TURN = 2 * Math.PI;

/** The numbers the table fixes, each with its spread; `diameter` of the propeller in m. */
export function benched({ rows }: BenchTable, diameter: number): Benched {
  const fourth = diameter * diameter * diameter * diameter;
  const driven = rows.flatMap(atMotor);
  const motor = motorOf(driven);
  const found: Partial<Record<BenchKey, Estimate | null>> = {
    ct: constantOf(
      strong(rows, "thrust").map(({ speed, thrust }) => [
        speed,
        (thrust * TURN * TURN) / (DENSITY * speed * speed * fourth),
      ]),
      [METERS.thrust, 2 * METERS.speed, METERS.air],
    ),
    ...motor,
    cp:
      constantOf(
        strong(rows, "torque").map(({ speed, torque }) => [
          speed,
          (torque * TURN * TURN * TURN) / (DENSITY * speed * speed * fourth * diameter),
        ]),
        [METERS.torque, 2 * METERS.speed, METERS.air],
      ) ?? powerByCurrent(driven, motor.kv, diameter),
  };
  return Object.fromEntries(Object.entries(found).filter(([, one]) => one !== null && one.value > 0)) as Benched;
}

/** What the motor itself gets: a speed controller at a duty passes that share of the volts, and draws that share of the current. */
interface Driven {
  readonly speed: number;
  readonly volts: number | undefined;
  readonly current: number;
  readonly torque: number | undefined;
  /** Whether a speed controller stood between, whose duty is its throttle's but for METERS.duty. */
  readonly switched: boolean;
}

function atMotor({ throttle = 1, speed, volts, current, torque }: BenchRow): Driven[] {
  if (current === undefined || !(current > 0)) return [];
  return [
    {
      speed,
      volts: volts === undefined ? undefined : throttle * volts,
      current: current / throttle,
      torque,
      switched: throttle < 0.995,
    },
  ];
}

/** Rows whose value is no less than a twentieth of the largest: below, a meter shows its last digit. */
function strong<K extends "thrust" | "torque">(rows: readonly BenchRow[], of: K) {
  const taken = rows.filter((row): row is BenchRow & Record<K, number> => (row[of] ?? 0) > 0);
  const most = Math.max(...taken.map((row) => row[of]));
  return taken.filter((row) => row[of] > most / 20);
}

/** A constant of the rotor from its value at each speed; a trend with speed that the rows show widens it. */
function constantOf(
  points: readonly (readonly [speed: number, value: number])[],
  meters: readonly number[],
): Estimate | null {
  const values = points.map(([, value]) => value);
  const fit = leastSquares(
    points.map(() => [1]),
    values,
  );
  if (fit === null) return null;
  const trend = leastSquares(
    points.map(([speed]) => [1, ln(speed)]),
    values,
  );
  const [value = 0] = fit.coefficients;
  const speeds = points.map(([speed]) => speed);
  const reach = ln(Math.max(...speeds) / Math.min(...speeds));
  const [, slope = 0] = trend?.coefficients ?? [];
  const clear = trend !== null && Math.abs(slope) > studentQuantile(trend.freedom) * (trend.errors[1] ?? 0);
  return estimated(
    value,
    [relativeError(fit, 0), ...(clear ? [Math.abs((slope * reach) / (2 * value))] : []), ...meters],
    points.length,
  );
}

/** Least squares of shares: rows of a first fit's values. */
function lineOf(rows: readonly (readonly number[])[], observed: readonly number[]): Fit | null {
  const first = leastSquares(rows, observed);
  if (first === null) return null;
  const fitted = rows.map((row) => first.predict(row).value);
  if (fitted.some((value) => !(value > 0))) return null;
  const share = (at: number): number => 1 / (fitted[at] ?? 1);
  return leastSquares(
    rows.map((row, at) => row.map((value) => value * share(at))),
    observed.map((value, at) => value * share(at)),
  );
}

const relativeError = (fit: Fit, of: number): number =>
  (studentQuantile(fit.freedom) * (fit.errors[of] ?? 0)) / Math.abs(fit.coefficients[of] ?? 0);

const estimated = (value: number, shares: readonly number[], rows: number): Estimate => ({
  value,
  spread: exp(Math.sqrt(shares.reduce((sum, share) => sum + share * share, 0))) - 1,
  source: `measured: bench table, ${rows} rows; ± by their scatter and the meters' accuracy`,
});

/** KV (rpm/V), resistance and no-load current, each null where the rows do not fix it. */
function motorOf(rows: readonly Driven[]): Record<"kv" | "resistance" | "noLoadCurrent", Estimate | null> {
  const powered = rows.filter((row): row is Driven & { volts: number } => (row.volts ?? 0) > 0);
  const volts = lineOf(
    powered.map(({ current, speed }) => [1, current / speed]),
    powered.map((row) => row.volts / row.speed),
  );
  const twisted = rows.filter((row): row is Driven & { torque: number } => (row.torque ?? 0) > 0);
  const torque = lineOf(
    twisted.map((row) => [row.torque / (row.speed * row.speed), 1 / (row.speed * row.speed)]),
    twisted.map((row) => row.current / (row.speed * row.speed)),
  );
  const drawn = torque ?? currentFit(rows);
  const count = torque === null ? rows.length : twisted.length;
  const duty = powered.some(({ switched }) => switched) ? METERS.duty : 0;
  const kv =
    volts === null
      ? null
      : estimated(
          60 / (TURN * (volts.coefficients[0] ?? 0)),
          [relativeError(volts, 0), METERS.volts, METERS.speed, duty],
          powered.length,
        );
  return {
    kv:
      kv ??
      (torque === null
        ? null
        : estimated(
            ((torque.coefficients[0] ?? 0) * 60) / TURN,
            [relativeError(torque, 0), METERS.current, METERS.torque],
            count,
          )),
    resistance:
      volts === null
        ? null
        : estimated(
            volts.coefficients[1] ?? 0,
            [
              relativeError(volts, 1),
              METERS.volts,
              METERS.current,
              duty * perDrop(powered, volts.coefficients[1] ?? 0),
            ],
            powered.length,
          ),
    noLoadCurrent:
      drawn === null ? null : estimated(drawn.coefficients[1] ?? 0, [relativeError(drawn, 1), METERS.current], count),
  };
}

/** How many times the volts are those that the winding takes, on average: a bent duty bends the difference of the two. */
const perDrop = (rows: readonly (Driven & { readonly volts: number })[], resistance: number): number =>
  rows.reduce((sum, { volts, current }) => sum + volts / (Math.abs(resistance) * current), 0) / rows.length;

const currentFit = (rows: readonly Driven[]): Fit | null =>
  lineOf(
    rows.map(({ speed }) => [1, 1 / (speed * speed)]),
    rows.map(({ current, speed }) => current / (speed * speed)),
  );

/** cp from the current, by the torque a motor of this KV makes of it. */
function powerByCurrent(rows: readonly Driven[], kv: Estimate | null, diameter: number): Estimate | null {
  const fit = currentFit(rows);
  if (fit === null || kv === null) return null;
  const fourth = diameter * diameter * diameter * diameter;
  const load = ((fit.coefficients[0] ?? 0) * 60) / (TURN * kv.value);
  const shares = [relativeError(fit, 0), kv.spread, METERS.current, 2 * METERS.speed, METERS.air];
  return estimated((load * TURN * TURN * TURN) / (DENSITY * fourth * diameter), shares, rows.length);
}
