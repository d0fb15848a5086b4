// Logs as they come: every kind of row that is odd is a remark with its line, none is healed in silence, and what makes a log
// useless is one line of bad input.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/base/problem.js";
import { axisSigns } from "../../src/flight/axis-signs.js";
import { CRAFT, csvOf, flightRows, LOG_FLIGHT, logOf, NAMES } from "../fixtures/flight-log.js";
import { changed } from "../fixtures/small-model.js";

const ROWS = flightRows();
const text = csvOf(ROWS);
const rows = () => ROWS.map((row) => [...row]);
/** Rows with a change made to them. */
const edited = (change: (rows: string[][]) => void): string[][] => {
  const changing = rows();
  change(changing);
  return changing;
};
const put = (all: string[][], row: number, column: number, value: string): void => {
  const fields = all[row];
  if (fields !== undefined) fields[column] = value;
};
const numberOf = (row: number, column: number): number => Number(ROWS[row]?.[column]);

const remarksOf = async (...given: Parameters<typeof logOf>) =>
  (await logOf(...given)).remarks
    .filter(({ text }) => !/rows a second, the loop runs/.test(text))
    .map(({ row, column, text: words }) => `${row ?? ""} ${column ?? ""}: ${words}`);

async function complaint(...given: Parameters<typeof logOf>): Promise<string> {
  try {
    await logOf(...given);
  } catch (error) {
    if (error instanceof InputError) return error.message;
    throw error;
  }
  return "nothing";
}

describe("a log without a fault", () => {
  it("is its columns in SI, with one remark: it is slower than the loop", async () => {
    const log = await logOf(text);
    expect(log.time.length).toBe(6000);
    expect(log.step).toBeCloseTo(0.001, 12);
    expect(log.time[5999]).toBeCloseTo(5.999, 12);
    expect(log.rate.roll?.[100]).toBeCloseTo((numberOf(100, 1) * Math.PI) / 180, 14);
    expect(log.duty[2]?.[7]).toBeCloseTo((numberOf(7, 6) - 1000) / 1000, 14);
    expect(log.voltage?.[0]).toBeCloseTo(15.2, 12);
    expect(log.stretches).toEqual([{ from: 0, to: 6000 }]);
    expect(log.remarks.map(({ text: words }) => words)).toEqual([
      "1000 rows a second, the loop runs at 4000 Hz: what is above 500 Hz appears folded to below, so what one unit of D is worth stays wide",
    ]);
  });

  it("is the same however the bytes come in pieces, its lines end and its names are quoted", async () => {
    const short = csvOf(ROWS.slice(0, 1500));
    const whole = await logOf(short);
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 1, max: 3000 }),
        fc.boolean(),
        fc.boolean(),
        fc.boolean(),
        async (piece, crlf, bom, quoted) => {
          const named = quoted ? short.replace(NAMES, NAMES.replace(/\w+/g, '"$&"')) : short;
          const ended = crlf ? named.replaceAll("\n", "\r\n") : named;
          expect(await logOf(`${bom ? "\ufeff" : ""}${ended}`, { piece })).toEqual(whole);
        },
      ),
      { numRuns: 12, seed: 20261128 },
    );
  });

  it("may have other delimiters, and the columns in any order beside others", async () => {
    const semicolons = text.replaceAll(",", ";");
    const turned = csvOf(
      ROWS.map((row) => ["0", ...[...row].reverse()]),
      `mood,${NAMES.split(",").reverse().join(",")}`,
    );
    const whole = await logOf(text);
    expect(await logOf(semicolons, { delimiter: ";" })).toEqual(whole);
    expect(await logOf(turned)).toEqual(whole);
  });
});

describe("rows that cannot be read are left out and told once for each kind", () => {
  it.each<[string, (all: string[][]) => void, string[]]>([
    [
      "too few fields",
      (all) => {
        for (const row of [40, 41, 900]) all[row]?.pop();
      },
      [
        "42 : 3 rows with another number of fields than the 9 columns (here 8): left out",
        "44 time_us: 1 gap of 2 ms in all, the longest 3 ms: the log is cut there",
      ],
    ],
    ["no time", (all) => put(all, 70, 0, "n/a"), ['72 time_us: 1 row without a time (here "n/a"): left out']],
    [
      "no number",
      (all) => {
        for (const row of [3, 5]) put(all, row, 2, "-");
      },
      ['5 gyro_y: no number in 2 rows (here "-"): taken as missing'],
    ],
    [
      "empty",
      (all) =>
        all.forEach((fields, row) => {
          if (row % 10 > 0) fields[8] = "";
        }),
      ["3 vbat: empty in 5 400 rows of 6 000 (90 %)"],
    ],
    [
      "a row twice",
      (all) => all.splice(10, 0, [...(all[9] ?? [])]),
      ["12 time_us: 1 row at the time of the row above (the first is the row above once more): left out"],
    ],
    [
      "a time of its own, ahead",
      (all) => put(all, 200, 0, "99000000"),
      ["202 time_us: 1 row at a time that does not fit those around: left out"],
    ],
    [
      "a time of its own, back",
      (all) => put(all, 200, 0, "17"),
      ["202 time_us: 1 row at a time that does not fit those around: left out"],
    ],
  ])("%s", async (_, change, said) => {
    expect(await remarksOf(csvOf(edited(change)))).toEqual(said);
  });

  it("the clock set back: time goes on, and the log is cut", async () => {
    const log = await logOf(
      csvOf(
        edited((all) =>
          all.slice(3000).forEach((fields) => {
            fields[0] = String(Number(fields[0]) - 5_000_000);
          }),
        ),
      ),
    );
    expect(log.stretches).toEqual([
      { from: 0, to: 3000 },
      { from: 3000, to: 6000 },
    ]);
    expect(log.time.every((time, row) => row === 0 || time > (log.time[row - 1] ?? 0))).toBe(true);
    expect(log.remarks.map(({ row, text: words }) => [row, words])).toContainEqual([
      3002,
      "the clock jumps back 1 time, here by 4.999 s: what follows is set right behind and never joined to what was before",
    ]);
  });

  it("a gap cuts the log, and what is not to be used is left out", async () => {
    const gap = csvOf(ROWS.filter((_, row) => row < 2000 || row >= 2400));
    const used = `${LOG_FLIGHT}  use: [{from: 1 s, to: 5 s}]\n`;
    const log = await logOf(gap, { flight: used });
    expect(log.stretches.map(({ from, to }) => [log.time[from], log.time[to]])).toEqual([
      [1, 2.4],
      [2.4, 5],
    ]);
    expect(await remarksOf(gap)).toEqual([
      "2002 time_us: 1 gap of 400 ms in all, the longest 401 ms: the log is cut there",
    ]);
  });
});

describe("values that cannot be", () => {
  const scaled = (column: number, factor: number) =>
    csvOf(
      edited((all) =>
        all.forEach((fields) => {
          fields[column] = String(Number(fields[column]) * factor);
        }),
      ),
    );

  it("a rate in rad/s called deg/s and the other way round", async () => {
    expect(await remarksOf(scaled(1, Math.PI / 180))).toEqual([
      expect.stringMatching(
        /^ gyro_x: as deg\/s the largest is [\d.]+ deg\/s, less than a craft moves in any flight: is it in rad\/s\?$/,
      ),
      expect.stringMatching(
        /^ gyro_x: answers 0\.0\d+ times as strongly as the model says, taken as deg\/s: is it in rad\/s\?$/,
      ),
    ]);
    const called = changed(LOG_FLIGHT, ["gyro_y, unit: deg/s", "gyro_y, unit: rad/s"]);
    expect(await remarksOf(text, { flight: called })).toEqual([
      expect.stringMatching(
        /^ gyro_y: as rad\/s the largest is \d+ deg\/s, more than such a sensor can measure: is it in deg\/s\?$/,
      ),
      expect.stringMatching(
        /^ gyro_y: answers \d+(\.\d+)? times as strongly as the model says, taken as rad\/s: is it in deg\/s\?$/,
      ),
    ]);
  });

  it("a voltage in volts called millivolts, a duty beyond its full scale", async () => {
    expect(await remarksOf(scaled(8, 0.001))).toEqual([
      expect.stringMatching(
        /^ vbat: its middle is 0\.00\d+ V for each of the model's 4 cells, expected 2\.4 to 4\.5 V/,
      ),
    ]);
    const called = LOG_FLIGHT.replaceAll("zero: 1000, full: 2000", "zero: 1000, full: 1300");
    expect((await remarksOf(text, { flight: called }))[0]).toMatch(
      /^ m1: reads up to 1\d\d(\.\d)? % of full: is `full` right\?$/,
    );
  });

  it("motors at full and a sensor at the end of its scale, for long", async () => {
    const full = csvOf(
      edited((all) =>
        all.slice(500, 600).forEach((fields) => {
          fields[4] = "2000";
        }),
      ),
    );
    expect((await remarksOf(full))[0]).toBe(
      "502 m1: at full in 1.7 % of the rows, here for 100 ms: what the loop asked for beyond is not in the log",
    );
    const flat = csvOf(
      edited((all) =>
        all.slice(500, 530).forEach((fields) => {
          fields[1] = "250";
        }),
      ),
    );
    expect((await remarksOf(flat))[0]).toBe(
      "502 gyro_x: at the end of its scale (250 deg/s) in 30 rows, here for 30 ms: the sensor cannot tell more",
    );
  });

  it("a column that never changes, and one that holds nothing", async () => {
    expect(
      (
        await remarksOf(
          csvOf(
            edited((all) =>
              all.forEach((fields) => {
                fields[3] = "0";
              }),
            ),
          ),
        )
      )[0],
    ).toBe(" gyro_z: never changes, so it tells nothing of the rate of yaw");
    expect(
      await remarksOf(
        csvOf(
          edited((all) =>
            all.forEach((fields) => {
              fields[8] = "";
            }),
          ),
        ),
      ),
    ).toEqual(["2 vbat: empty in 6 000 rows of 6 000 (100 %)", " vbat: holds no number: as if there were no voltage"]);
  });
});

describe("axes and signs by how the craft answers", () => {
  it("are told for roll, pitch and yaw of a log that is right", async () => {
    const answers = axisSigns(await logOf(text), CRAFT);
    expect(answers.map(({ axis, answers: to, sign }) => [axis, to, sign])).toEqual([
      ["roll", "roll", 1],
      ["pitch", "pitch", 1],
      ["yaw", "yaw", 1],
    ]);
    // the lines that made this log have the craft's own authority to a third
    for (const { strength, correlation } of answers.slice(0, 2)) {
      expect(strength).toBeGreaterThan(0.5);
      expect(strength).toBeLessThan(2);
      expect(correlation).toBeGreaterThan(0.9);
    }
  });

  it("a sign that is missing, or one too many", async () => {
    const turned = csvOf(
      edited((all) =>
        all.forEach((fields) => {
          fields[2] = String(-Number(fields[2]));
        }),
      ),
    );
    expect(await remarksOf(turned)).toEqual([" gyro_y: answers pitch the other way: is `sign: -1` missing?"]);
    const declared = changed(LOG_FLIGHT, ["gyro_y, unit: deg/s", "gyro_y, unit: deg/s, sign: -1"]);
    expect(await remarksOf(text, { flight: declared })).toEqual([
      " gyro_y: answers pitch the other way: is its `sign: -1` one too many?",
    ]);
    expect(await remarksOf(turned, { flight: declared })).toEqual([]);
  });

  it("axes that are swapped", async () => {
    const swapped = changed(
      LOG_FLIGHT,
      ["roll: {column: gyro_x", "roll: {column: gyro_q"],
      ["pitch: {column: gyro_y", "pitch: {column: gyro_x"],
      ["gyro_q", "gyro_y"],
    );
    expect(await remarksOf(text, { flight: swapped })).toEqual([
      " gyro_y: called roll, but answers pitch: are the axes swapped, or the rotors of the motor columns?",
      " gyro_x: called pitch, but answers roll: are the axes swapped, or the rotors of the motor columns?",
    ]);
  });

  it("nothing is said of a craft that was not moved", async () => {
    const still = csvOf(
      edited((all) =>
        all.forEach((fields, row) => {
          for (const column of [1, 2, 3]) fields[column] = String(20 * Math.sin(row * row + column));
        }),
      ),
    );
    expect(axisSigns(await logOf(still), CRAFT)).toEqual([]);
  });
});

describe("a log of no use is one line", () => {
  it.each<[string, string, string, string?]>([
    [
      "no such column",
      text.replace("gyro_y", "gyroy"),
      "flight.yaml:9:21 log.rate.pitch.column: log.csv has no such column (expected one of: time_us, gyro_x, gyroy, gyro_z, m1, m2, m3, m4, vbat)",
    ],
    [
      "one name twice",
      csvOf(
        ROWS.map((row) => [...row, "0"]),
        `${NAMES},gyro_x`,
      ),
      "flight.yaml:8:20 log.rate.roll.column: log.csv has 2 columns of that name, expected one",
    ],
    [
      "no names",
      csvOf(ROWS, ROWS[0]?.join(",") ?? ""),
      "log.csv:1:1: numbers, where the first line holds the names of the columns",
    ],
    ["no row", `${NAMES}\n`, "log.csv: holds names of columns and no row"],
    ["nothing", "", "log.csv: holds no row, expected a line of column names and rows of numbers"],
    [
      "another unit of time",
      text,
      "flight.yaml:6:33 log.time.unit: in s the column time_us has 0.001 rows a second, expected 20 to 100000; is it in another unit?",
      changed(LOG_FLIGHT, ["unit: us", "unit: s"]),
    ],
    ["too short", csvOf(ROWS.slice(0, 300)), "log.csv: 0.299 s of the log can be used, expected 1 s at least"],
    [
      "nothing of it wanted",
      text,
      "flight.yaml:17:8 log.use: 0 s of the log can be used, expected 1 s at least; the log lasts 5.999 s from its first row",
      `${LOG_FLIGHT}  use: [{from: 12 s, to: 48 s}]\n`,
    ],
    [
      "a time that is a date",
      csvOf(
        edited((all) =>
          all.forEach((fields) => {
            fields[0] = "12:30:01";
          }),
        ),
      ),
      'log.csv:2:1: "12:30:01" in column time_us is not a number; 6 000 of 6 000 rows have no time',
    ],
    [
      "decimal commas between commas",
      csvOf(ROWS.map((row) => row.map((field) => field.replace(".", ",")))),
      "log.csv:2:1: 18 fields where the first line names 9 columns, as in 6 000 of 6 000 rows; are numbers written with a decimal comma? A point is read",
    ],
    [
      "a quote left open",
      csvOf(edited((all) => put(all, 3, 1, '"12'))),
      "log.csv:5:1: a row of more than 65536 characters: is a quote left open?",
    ],
  ])("%s", async (_, content, line, flight = LOG_FLIGHT) => {
    expect(await complaint(content, { flight })).toBe(line);
  });

  it("decimal commas between semicolons", async () => {
    const semicolons = text.replaceAll(",", ";").replaceAll(".", ",");
    expect(await complaint(semicolons, { delimiter: ";" })).toBe(
      'log.csv:2:1: "5000000,000" in column time_us has a decimal comma, expected numbers with a point: export the log anew',
    );
  });
});
