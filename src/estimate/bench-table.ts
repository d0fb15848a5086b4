// A bench table of one motor with one propeller: its columns, their units, and the rows in SI.

import { GRAVITY } from "../airframe/craft.js";
import { InputError, type Problem, Problems } from "../base/problem.js";

/** What a table of text gives; `problem` knows line and column, row -1 is that of the names. */
export interface TextTable {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
  problem(row: number, column: number, message: string): Problem;
}

type Units = Readonly<Record<string, number>>;

const RPM = (2 * Math.PI) / 60;

/** What each column may be called, and its units with their SI values. */
const COLUMNS = {
  throttle: { names: ["throttle", "duty"], units: { "%": 0.01 } },
  volts: { names: ["volts", "voltage"], units: { V: 1, mV: 1e-3 } },
  speed: { names: ["rpm", "speed"], units: { rpm: RPM, "1/min": RPM, "rad/s": 1 } },
  thrust: { names: ["thrust"], units: { g: 1e-3 * GRAVITY, kg: GRAVITY, N: 1, mN: 1e-3 } },
  current: { names: ["current", "amps"], units: { A: 1, mA: 1e-3 } },
  torque: { names: ["torque"], units: { "N m": 1, Nm: 1, "N cm": 1e-2, "N mm": 1e-3, "mN m": 1e-3 } },
} as const satisfies Readonly<Record<string, { readonly names: readonly string[]; readonly units: Units }>>;

type Column = keyof typeof COLUMNS;

/** One row in SI: V at the supply, A from it, rad/s, N, N m, throttle as a fraction. */
export type BenchRow = Readonly<Partial<Record<Column, number>>> & { readonly speed: number };

export interface BenchTable {
  readonly rows: readonly BenchRow[];
  /** Names of the columns that say nothing here. */
  readonly unused: readonly string[];
}

interface Found {
  readonly column: Column;
  readonly at: number;
  readonly factor: number;
}

/** The rows in which the rotor turns. InputError with every problem found. */
export function benchTable(table: TextTable): BenchTable {
  const problems = new Problems();
  const found = table.columns.flatMap((_, at) => columnAt(table, at, problems));
  const doubled = found.find(({ column, at }) => found.some((other) => other.column === column && other.at < at));
  if (doubled !== undefined) problems.add(table.problem(-1, doubled.at, `a second column of ${doubled.column}`));
  if (!found.some(({ column }) => column === "speed"))
    problems.add(table.problem(-1, 0, `no column of rpm; expected columns like ${EXPECTED}`));
  problems.throwIfAny();
  const rows = table.rows.flatMap((cells, row) => rowOf(table, cells, row, found, problems));
  problems.throwIfAny();
  if (rows.length < LEAST_ROWS)
    throw new InputError([
      table.problem(-1, 0, `${rows.length} rows with rpm above 0, expected ${LEAST_ROWS} or more`),
    ]);
  return { rows, unused: table.columns.filter((name, at) => name !== "" && !found.some((one) => one.at === at)) };
}

const EXPECTED = '"throttle [%]", "volts [V]", "rpm", "thrust [g]", "current [A]", "torque [N m]"';
const LEAST_ROWS = 4;

function columnAt(table: TextTable, at: number, problems: Problems): Found[] {
  const [, name = "", unit] = /^([^[(]*?)\s*(?:[[(]\s*(.*?)\s*[\])])?$/.exec(table.columns[at]?.trim() ?? "") ?? [];
  const column = (Object.keys(COLUMNS) as Column[]).find((key) =>
    (COLUMNS[key].names as readonly string[]).includes(name.toLowerCase()),
  );
  if (column === undefined) return [];
  const units: Units = COLUMNS[column].units;
  const written = unit ?? (name.toLowerCase() === "rpm" ? "rpm" : undefined);
  const factor = written !== undefined && Object.hasOwn(units, written) ? units[written] : undefined;
  if (factor !== undefined) return [{ column, at, factor }];
  const unitList = Object.keys(units).join(", ");
  const what = written === undefined ? "has no unit" : `has an unknown unit, "${written}"`;
  problems.add(
    table.problem(
      -1,
      at,
      `column ${name} ${what}; expected one of ${unitList}, as in "${name} [${Object.keys(units)[0]}]"`,
    ),
  );
  return [];
}

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;
const MOST: Readonly<Record<Column, number>> = {
  throttle: 1,
  volts: 100,
  speed: 2e4,
  thrust: 1e3,
  current: 1e3,
  torque: 1e3,
};

/** The row, unless the rotor stands still in it; an empty cell is a value that was not taken. */
function rowOf(
  table: TextTable,
  cells: readonly string[],
  row: number,
  found: readonly Found[],
  problems: Problems,
): BenchRow[] {
  const values: Partial<Record<Column, number>> = {};
  for (const { column, at, factor } of found) {
    const text = cells[at] ?? "";
    if (text === "") continue;
    const value = factor * Number(text);
    if (!NUMBER.test(text))
      problems.add(table.problem(row, at, `"${text}" is not a number; the decimal mark is a point`));
    else if (Math.abs(value) > MOST[column] * 1.0001)
      problems.add(table.problem(row, at, `${text} is too much for ${column}; is its unit the one in the heading?`));
    else values[column] = value;
  }
  const { speed = 0, throttle } = values;
  return speed > 0 && (throttle === undefined || throttle > 0) ? [{ ...values, speed }] : [];
}
