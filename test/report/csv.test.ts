import { describe, expect, it } from "vitest";
import { ABSENCES, MEASURES } from "../../src/base/measures.js";
import { renderCsv } from "../../src/report/index.js";
import { fixture } from "./fixture.js";

const map = fixture(8);
const lines = renderCsv(map).trimEnd().split("\n");
const header = (lines[0] ?? "").split(",");
const cells = (line: number) => (lines[line] ?? "").split(",");
const column = (title: string) => header.indexOf(title);

describe("points.csv", () => {
  it("has a row per axis, D and P", () => {
    expect(lines).toHaveLength(1 + 2 * 8 * 8);
    expect(cells(1).slice(0, 3)).toEqual(["roll", "6", "0"]);
    expect(cells(65)[0]).toBe("pitch");
  });

  it("names every measure with its unit in the header", () => {
    for (const { title, unit } of MEASURES) expect(header).toContain(`${title} [${unit}]`);
    expect(header).toContain("P [%/(100 deg/s)]");
    expect(header).toContain("D [%/(1000 deg/s^2)]");
  });

  it("gives the numbers of the map, negative ones unharmed", () => {
    const growth = Number(cells(1)[column("Growth [1/s]")]);
    expect(growth).toBeLessThan(0);
    expect(growth).toBeCloseTo(map.axes.roll.measures.growth[0]?.[0] as number, 4);
  });

  it("leaves an absent measure empty and says why in the last column", () => {
    const last = lines.findIndex((line) => line.startsWith("roll,70,9,"));
    expect(cells(last)[column("Settling time [ms]")]).toBe("");
    expect(lines[last]).toContain("Settling time: never settles in the window");
    expect(lines.join("\n")).not.toMatch(/NaN|Infinity|undefined|null/);
  });

  it("names together what was left out where a nudge settles a point", () => {
    const code = (ABSENCES as readonly string[]).indexOf("sustained under a nudge, not simulated");
    const { roll } = map.axes;
    const first = <T>(table: readonly (readonly T[])[], value: T) =>
      table.map((row, i) => row.map((one, j) => (i === 0 && j === 0 ? value : one)));
    const leftOut = {
      ...map,
      axes: {
        ...map.axes,
        roll: {
          ...roll,
          measures: { ...roll.measures, kick: first(roll.measures.kick, null), rise: first(roll.measures.rise, null) },
          absent: { ...roll.absent, kick: first(roll.absent.kick, code), rise: first(roll.absent.rise, code) },
        },
      },
    };
    expect(renderCsv(leftOut).split("\n")[1]).toMatch(
      /Stop time, Attitude kick: sustained under a nudge, not simulated/,
    );
  });

  it("writes verdict, reasons, who decided and safe", () => {
    const row = cells(lines.findIndex((line) => line.startsWith("roll,70,9,")));
    expect(row[column("Verdict")]).toBe("sustained");
    expect(row[column("Reasons")]?.split(" ")).toContain("hot");
    expect(row[column("Decided by")]).toBe("roll-stop");
    expect(row[column("Decided at throttle [%]")]).toBe("80");
    expect(row[column("Safe")]).toBe("no");
    expect(lines.some((line) => line.includes(",clean,") && line.includes(",yes,"))).toBe(true);
  });

  it("defuses text that a spreadsheet would run, and drops control characters", () => {
    const hostile = map.variants.map((variant) => ({ ...variant, script: "=cmd()", condition: "+1\u001b[2J" }));
    const text = renderCsv({ ...map, variants: hostile });
    expect(text).toContain(",'=cmd(),");
    expect(text).toContain(",'+1 [2J,");
    expect(text).not.toMatch(/,[=+@]/);
    expect(text).not.toContain("\u001b");
  });
});
