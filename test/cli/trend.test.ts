// Records of small sweeps of the shipped versions, and what a trend says of them; held against the comparison of the same maps.
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import type { Drift } from "../../src/compare/format.js";
import type { Trend } from "../../src/trend/trend.js";
import { madeOnce } from "../fixtures/made-once.js";
import { emptyFolder, READABLE, run } from "./command.js";

const SWEEP = "test/fixtures/trend.yaml";
const VERSIONS = ["r1", "r2", "r3", "r4", "r5"] as const;
const dateOf = (version: string): string => `2026-0${version.slice(1)}-01`;

interface Made {
  readonly maps: Readonly<Record<string, string>>;
  readonly records: string;
  readonly said: readonly string[];
}
let made: Made;
beforeAll(async () => {
  const text = await madeOnce("trend.json", async () => {
    const folder = emptyFolder();
    const said: string[] = [];
    for (const version of VERSIONS) {
      const words = ["--model", `models/sandpiper-${version}.yaml`, "--out", join(folder, version), "--workers", "1"];
      const { code, stdout } = await run(
        "sweep",
        SWEEP,
        ...words,
        "--trend",
        join(folder, "records"),
        "--date",
        dateOf(version),
      );
      expect(code).toBe(0);
      said.push(stdout);
    }
    const map = (version: string) => [version, readFileSync(join(folder, version, "map.json"), "utf8")] as const;
    expect(readdirSync(join(folder, "records"))).toEqual(["sandpiper.jsonl"]);
    const records = readFileSync(join(folder, "records", "sandpiper.jsonl"), "utf8");
    return JSON.stringify({ maps: Object.fromEntries(VERSIONS.map(map)), records, said } satisfies Made);
  });
  made = JSON.parse(text) as Made;
}, 240_000);

/** A folder with a map per version. */
function mapFolders(): string {
  const folder = emptyFolder();
  for (const version of VERSIONS) {
    mkdirSync(join(folder, version));
    writeFileSync(join(folder, version, "map.json"), made.maps[version] ?? "");
  }
  return folder;
}

describe("a sweep with --trend", () => {
  it("leaves one line a map and says where", () => {
    expect(made.records.trimEnd().split("\n")).toHaveLength(5);
    for (const stdout of made.said) expect(stdout).toMatch(/^Trend: .*records\/sandpiper\.jsonl$/m);
  });

  it("leaves what gainscape record makes of its map", async () => {
    const folder = mapFolders();
    for (const version of [...VERSIONS, "r1"]) {
      const words = ["--trend", join(folder, "again"), "--date", dateOf(version)];
      expect((await run("record", join(folder, version), ...words)).code).toBe(0);
    }
    expect(readFileSync(join(folder, "again", "sandpiper.jsonl"), "utf8")).toBe(made.records);
    const twice = await run(
      "record",
      join(folder, "r3"),
      "--trend",
      join(folder, "again"),
      "--date",
      dateOf("r3"),
      "--json",
    );
    expect(JSON.parse(twice.stdout)).toEqual({
      records: [{ added: false, file: join(folder, "again", "sandpiper.jsonl") }],
    });
  });
});

describe("the trend of r1 to r5", () => {
  const trendOf = async (): Promise<{ trend: Trend; folder: string; records: string }> => {
    const folder = mapFolders();
    const records = join(folder, "records.jsonl");
    writeFileSync(records, made.records);
    const { code, stdout, stderr } = await run("trend", records, "--out", join(folder, "out"), "--json");
    expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
    return { trend: JSON.parse(stdout).trends[0] as Trend, folder, records };
  };

  it("names r2, r3, r4 and r5 as steps, the worst first", async () => {
    const { trend, folder, records } = await trendOf();
    expect(trend.steps.map(({ stage }) => trend.stages[stage]?.version)).toEqual(["r2", "r3", "r4", "r5"]);
    const { stdout } = await run("trend", records, "--out", join(folder, "text"));
    const plain = stdout.replaceAll("\u00a0", " ");
    expect(plain).toMatch(
      /^Sandpiper r5: (roll|pitch) boundary falls [\d.]+ % at D [\d.]+ since 2026-05-01, the largest of 4 steps\.$/m,
    );
    for (const version of ["r2", "r3", "r4", "r5"])
      expect(plain).toMatch(new RegExp(`^ {2}${dateOf(version)} ${version}$`, "m"));
    expect(stdout).toMatch(READABLE);
    const page = readFileSync(join(folder, "text", "index.html"), "utf8").replaceAll("\u00a0", " ");
    expect(page).toMatch(/<h1>Sandpiper r5: (roll|pitch) boundary falls [\d.]+ % at D/);
  });

  it("moves boundary and start by what a comparison of the two maps says", async () => {
    const { trend, folder } = await trendOf();
    const compared = await run(
      "compare",
      join(folder, "r1"),
      join(folder, "r2"),
      "--out",
      join(folder, "drift"),
      "--quiet",
    );
    expect([0, 1]).toContain(compared.code);
    const drift = JSON.parse(readFileSync(join(folder, "drift", "drift.json"), "utf8")) as Drift;
    const [step] = trend.steps;
    const checked = (step?.moves ?? []).flatMap(({ axis, series, size }) => {
      if (axis === "yaw") return []; // this sweep judges no strip
      const line = trend.axes[axis][series];
      const { shift, start } = drift.axes[axis];
      const percent =
        line?.measure === "boundary"
          ? shift.perD.find(({ d }) => d === line.d)?.percent
          : line?.measure === "startP"
            ? start.pPercent
            : undefined;
      return percent == null ? [] : [Math.abs((size ?? Number.NaN) - percent)];
    });
    expect(checked.length).toBeGreaterThan(2);
    for (const apart of checked) expect(apart).toBeLessThan(0.02); // % of two values in five digits
  });

  it("draws the same bytes again, and a baseline's record stands in line with the maps'", async () => {
    const { folder, records } = await trendOf();
    const page = () => readFileSync(join(folder, "out", "index.html"), "utf8");
    const first = page();
    await run("trend", records, "--out", join(folder, "out"), "--quiet");
    expect(page()).toBe(first);
    const words = [
      "--baselines",
      join(folder, "baselines"),
      "--trend",
      records,
      "--date",
      "2026-01-01",
      "--workers",
      "1",
    ];
    expect((await run("baseline", SWEEP, ...words)).code).toBe(0);
    const { stdout } = await run("trend", records, "--out", join(folder, "out"), "--json");
    expect((JSON.parse(stdout).trends as Trend[]).map(({ records }) => records)).toEqual([5]);
    const gated = await run(
      "gate",
      SWEEP,
      "--baselines",
      join(folder, "baselines"),
      "--out",
      join(folder, "gate"),
      "--trend",
      join(folder, "night"),
      "--date",
      "2026-06-01",
      "--workers",
      "1",
      "--quiet",
    );
    expect([0, 1]).toContain(gated.code);
    expect(
      readFileSync(join(folder, "night", "sandpiper.jsonl"), "utf8")
        .trimEnd()
        .split("\n"),
    ).toHaveLength(2);
  }, 240_000);

  it("says which line was left out, and goes on", async () => {
    const { folder } = await trendOf();
    const file = join(folder, "torn.jsonl");
    writeFileSync(file, `${made.records.slice(0, 100)}\n${made.records}`);
    const { code, stdout, stderr } = await run("trend", file, "--out", join(folder, "torn"));
    expect(code).toBe(0);
    expect(stderr).toMatch(
      /^left out: .*torn\.jsonl:1:101: not a record: JSON that cannot be read; was it cut short\?\n$/,
    );
    expect(stdout).toContain("the largest of 4 steps");
    expect(readFileSync(join(folder, "torn", "index.html"), "utf8")).toContain("torn.jsonl:1:101");
  });
});

describe("usage", () => {
  it.each([
    ["no records", ["trend"], /missing required argument 'records'/],
    ["a folder that is none", ["trend", "nowhere"], /nowhere: no such file/],
    ["a record without a date", ["record", "x", "--trend", "y"], /required option '--date/],
    ["a date that is none", ["record", "x", "--trend", "y", "--date", "2026-02-30"], /expected a day as 2026-11-28/],
    ["a place without a date", ["sweep", SWEEP, "--trend", "y"], /--trend: goes with --date, as --date "\$\(git log/],
    ["a date without a place", ["sweep", SWEEP, "--date", "2026-02-03"], /--date: goes with --trend/],
    [
      "a model changed on the command line",
      ["sweep", SWEEP, "--set", "pack.cells=6", "--trend", "y", "--date", "2026-02-03"],
      /a record is the map of a model's file/,
    ],
    [
      "a share",
      ["sweep", SWEEP, "--shard", "1/2", "--trend", "y", "--date", "2026-02-03"],
      /--shard: leaves no record/,
    ],
    [
      "a place that is no folder of records",
      ["sweep", SWEEP, "--trend", "README.md", "--date", "2026-02-03"],
      /README\.md: this is a summary/,
    ],
    ["a map as records", ["trend", "models/sandpiper-r1.yaml"], /this is a model; expected records of a trend/],
  ])("%s ends with 2 before anything is simulated", async (_, words, message) => {
    const { code, stdout, stderr } = await run(...words);
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    expect(stderr).toMatch(message);
    expect(stderr).toMatch(READABLE);
    expect(stderr).not.toContain("estimate:");
    expect(existsSync("y")).toBe(false);
  });
});
