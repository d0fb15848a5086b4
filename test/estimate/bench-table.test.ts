// Bench tables as they come: columns in any order, units in the heading, other separators; and what is wrong with them.
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { readBench } from "../../src/flow/new-model.js";
import { emptyFolder, run } from "../cli/command.js";

function tableFile(text: string): string {
  const file = join(emptyFolder(), "bench.csv");
  writeFileSync(file, text);
  return file;
}

const HEAD = "throttle [%],volts [V],rpm,thrust [g],current [A],temperature [C]";
const BODY =
  "20,16.1,6400,63,1.1,22\n40,16.0,11900,228,4.6,23\n60,15.8,16600,441,11.9,24\n80,15.6,20600,688,22.5,26\n100,15.3,24000,940,36.1,30";

describe("a bench table", () => {
  it("is read into SI, rows at rest and columns of no use left out", () => {
    const { rows, unused } = readBench(tableFile(`\ufeff${HEAD}\n0,16.2,0,0,0.1,22\n${BODY}\n\n`));
    expect(unused).toEqual(["temperature [C]"]);
    expect(rows).toHaveLength(5);
    expect(rows[0]).toEqual({
      throttle: 0.2,
      volts: 16.1,
      speed: expect.closeTo((6400 * 2 * Math.PI) / 60, 9),
      thrust: expect.closeTo(0.063 * 9.80665, 12),
      current: 1.1,
    });
  });

  it("may be separated by semicolons, name its units otherwise and leave cells empty", () => {
    const { rows } = readBench(tableFile("Thrust (N);RPM;Torque (mN m)\n1;5000;9\n2;7000;\n3;8600;27\n4;9900;36"));
    expect(rows.map(({ torque }) => torque)).toEqual([
      expect.closeTo(0.009, 12),
      undefined,
      expect.closeTo(0.027, 12),
      expect.closeTo(0.036, 12),
    ]);
  });

  it.each([
    [
      "no unit",
      HEAD.replace("thrust [g]", "thrust"),
      BODY,
      /bench\.csv:1:28: column thrust has no unit; expected one of g, kg, N, mN, as in "thrust \[g\]"/,
    ],
    ["an unknown unit", HEAD.replace("[V]", "[kV]"), BODY, /bench\.csv:1:14: column volts has an unknown unit, "kV"/],
    [
      "no speed",
      HEAD.replace("rpm", "turns"),
      BODY,
      /bench\.csv:1:1: no column of rpm; expected columns like "throttle \[%\]"/,
    ],
    ["a column twice", HEAD.replace("temperature [C]", "current [mA]"), BODY, /a second column of current/],
    ["no number", HEAD, BODY.replace("11900", "fast"), /bench\.csv:3:9 rpm: "fast" is not a number/],
    [
      "a decimal comma",
      HEAD.replaceAll(",", ";"),
      BODY.replaceAll(",", ";").replace("16.0", "16,0"),
      /"16,0" is not a number; the decimal mark is a point/,
    ],
    [
      "another unit",
      HEAD,
      BODY.replace("11900", "11900000"),
      /11900000 is too much for speed; is its unit the one in the heading/,
    ],
    ["too few cells", HEAD, BODY.replace(",22.5,26", ""), /bench\.csv:5:1: not CSV that can be read/],
    ["too few rows", HEAD, "20,16.1,6400,63,1.1,22", /1 rows with rpm above 0, expected 4 or more/],
    ["nothing", "", "", /bench\.csv: holds no line of column names/],
  ])("with %s is refused in one line", async (_, head, body, message) => {
    const target = join(emptyFolder(), "x.yaml");
    const words = ["--answers", "models/answers/sandpiper.yaml", "--bench", tableFile(`${head}\n${body}`)];
    const { code, stderr } = await run("new", target, ...words);
    expect(code).toBe(2);
    expect(stderr).toMatch(message);
    expect(stderr.trimEnd().split("\n")).toHaveLength(1);
  });

  it("says what it gave, and what of it was not used", async () => {
    const target = join(emptyFolder(), "x.yaml");
    const words = ["--answers", "models/answers/sandpiper.yaml", "--bench", tableFile(`${HEAD}\n${BODY}`)];
    const { code, stdout } = await run("new", target, ...words);
    expect(code).toBe(0);
    expect(stdout).toMatch(/The bench table \(5 rows\) gives ct, /);
    expect(stdout).toContain("Not used of it: temperature [C].");
  });
});
