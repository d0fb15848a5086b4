// Remarks on the values of one column: at their limits for long, standing still, too large or too small for their unit.
// Thresholds are wide: common practice, no source.
import { at, numberAt } from "../base/at.js";
import { figures, inUnitOf } from "../base/units.js";
import type { Channel } from "./channels.js";
import type { LogFacts } from "./facts.js";
import type { Remark } from "./log.js";
import { counted, shareText, Tally } from "./tally.js";

/** s at a limit without a break, or share of all rows, from which it is reported. */
const LONG = 0.02;
const OFTEN = 0.005;
/** Rows of one and the same extreme value that look like the end of a scale, and the rate below which nothing ends. */
const FLAT_ROWS = 5;
const LEAST_FLAT = 2; // rad/s

/** No small sensor of rates measures more, rad/s: twice the 2 000 deg/s that is common. */
const FASTEST = 70;
/** The largest rate of a whole log of a craft that flew, rad/s: 8 deg/s; below, it is more likely in rad/s called deg/s. */
const SLOWEST = 0.14;

export function valueRemarks(facts: LogFacts, { column, holds }: Channel, values: Float64Array): Remark[] {
  const { file } = facts;
  const put = (row: number | null, text: string): Remark => ({
    file,
    row: row === null ? null : facts.line(row),
    column: column.name,
    text,
  });
  const [least, most] = extremes(values);
  if (Number.isNaN(least)) return [put(null, `holds no number: as if there were no ${holds}`)];
  if (least === most) return [put(null, `never changes, so it tells nothing of the ${holds}`)];
  if (holds.startsWith("rate"))
    return [...flat(facts, column.limit, values, least, most, put), ...size(column.unit, least, most, put)];
  if (holds.startsWith("motor")) {
    const beyond = scaled(least, most, "full", put);
    return beyond.length > 0 ? beyond : atLimits(facts, values, put);
  }
  if (holds === "throttle") return scaled(least, most, "full", put);
  if (holds === "voltage") return cells(facts, values, put);
  return [];
}

type Put = (row: number | null, text: string) => Remark;

function extremes(values: Float64Array): readonly [number, number] {
  let [least, most] = [Number.NaN, Number.NaN];
  for (const value of values) {
    if (!(value >= least)) least = Number.isNaN(value) ? least : value;
    if (!(value <= most)) most = Number.isNaN(value) ? most : value;
  }
  return [least, most];
}

/** Rows for which `is` holds. */
function tallied(values: Float64Array, is: (value: number) => boolean): Tally {
  const tally = new Tally();
  for (let row = 0; row < values.length; row++) if (is(numberAt(values, row))) tally.add(row);
  return tally;
}

/** A sensor at the end of its scale. */
function flat(
  facts: LogFacts,
  limit: number | null,
  values: Float64Array,
  least: number,
  most: number,
  put: Put,
): Remark[] {
  const end = limit ?? Math.max(-least, most);
  const tally = tallied(values, (value) => Math.abs(value) >= 0.999 * end);
  const exact = limit ?? (tally.longest >= FLAT_ROWS ? end : Number.POSITIVE_INFINITY);
  if (tally.count === 0 || exact === Number.POSITIVE_INFINITY || end < LEAST_FLAT) return [];
  if (limit === null && tallied(values, (value) => Math.abs(value) === end).longest < FLAT_ROWS) return [];
  const at = `${figures(inUnitOf(end, "rate", "deg/s"))} deg/s`;
  return [
    put(
      tally.longestFrom,
      `at the end of its scale (${at}) in ${counted(tally.count, "row")}, here for ${during(facts, tally)}: the sensor cannot tell more`,
    ),
  ];
}

function size(unit: string | null, least: number, most: number, put: Put): Remark[] {
  const peak = Math.max(-least, most);
  const other = unit === "rad/s" ? "deg/s" : "rad/s";
  const said = (why: string): Remark[] => [
    put(
      null,
      `as ${unit} the largest is ${figures(inUnitOf(peak, "rate", "deg/s"))} deg/s, ${why}: is it in ${other}?`,
    ),
  ];
  if (peak > FASTEST) return said("more than such a sensor can measure");
  return peak < SLOWEST ? said("less than a craft moves in any flight") : [];
}

/** Duties that stand at none or all. */
function atLimits(facts: LogFacts, values: Float64Array, put: Put): Remark[] {
  const { idle } = facts.airframe.controller;
  const ends = [
    ["full", tallied(values, (value) => value >= 0.995)],
    ["its lowest", tallied(values, (value) => value <= idle + 0.005)],
  ] as const;
  return ends.flatMap(([end, tally]) => {
    const long = tally.longest * facts.clock.step >= LONG;
    if (tally.count === 0 || !(long || tally.count > OFTEN * values.length)) return [];
    const share = shareText(tally.count / values.length);
    return [
      put(
        tally.longestFrom,
        `at ${end} in ${share} of the rows, here for ${during(facts, tally)}: what the loop asked for beyond is not in the log`,
      ),
    ];
  });
}

const during = ({ clock }: LogFacts, { longest }: Tally): string => `${figures(1000 * longest * clock.step)} ms`;

/** Shares that do not fit their full scale. */
function scaled(least: number, most: number, key: string, put: Put): Remark[] {
  const percent = (share: number) => `${figures(100 * share)} %`;
  if (most > 1.02) return [put(null, `reads up to ${percent(most)} of full: is \`${key}\` right?`)];
  if (least < -0.02) return [put(null, `reads down to ${percent(least)} of full: is \`zero\` right?`)];
  return most < 0.05 ? [put(null, `never reads more than ${percent(most)} of full: is \`${key}\` right?`)] : [];
}

const CELL = [2.4, 4.5] as const; // V, of lithium cells in use

function cells({ airframe }: LogFacts, values: Float64Array, put: Put): Remark[] {
  const sorted = values.filter((value) => value > 0).sort();
  if (sorted.length === 0) return [];
  const cell = at(sorted, sorted.length >> 1) / airframe.pack.cells;
  if (cell >= CELL[0] && cell <= CELL[1]) return [];
  return [
    put(
      null,
      `its middle is ${figures(cell)} V for each of the model's ${airframe.pack.cells} cells, expected ${CELL[0]} to ${CELL[1]} V: are unit, divide_by and cells right?`,
    ),
  ];
}
