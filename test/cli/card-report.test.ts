import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { readFlight } from "../../src/flow/read-flight.js";
import { changed } from "../fixtures/small-model.js";
import { emptyFolder, FILES, READABLE, run } from "./command.js";

const digest = (file: string) => createHash("sha256").update(readFileSync(file)).digest("hex");

const SWEEP = "test/fixtures/report.yaml";

describe("gainscape report", () => {
  it("draws page, card and table of a map again, byte for byte, without simulating", async () => {
    const folder = emptyFolder();
    expect((await run("sweep", SWEEP, "--out", folder, "--quiet")).code).toBe(0);
    const before = FILES.map((file) => digest(join(folder, file)));
    for (const file of FILES.filter((one) => one !== "map.json")) rmSync(join(folder, file));
    const again = await run("report", join(folder, "map.json"));
    expect({ code: again.code, stderr: again.stderr }).toEqual({ code: 0, stderr: "" });
    expect(again.stdout).toContain(join(folder, "card.html"));
    expect(FILES.map((file) => digest(join(folder, file)))).toEqual(before);
    const elsewhere = join(emptyFolder(), 'a report\'s "own" folder');
    expect((await run("report", folder, "--out", elsewhere, "--quiet")).code).toBe(0);
    expect(readdirSync(elsewhere).sort()).toEqual(FILES.filter((one) => one !== "map.json"));
    expect(digest(join(elsewhere, "index.html"))).toBe(before[FILES.indexOf("index.html")]);
  });

  it("says in one line what is wrong with what is no map, and writes nothing", async () => {
    const folder = emptyFolder();
    const file = join(folder, "map.json");
    for (const [text, said] of [
      ["{}", "format: missing"],
      ["not json", "not JSON"],
      ['{"format":"gainscape.map/2"}', "missing"],
      ['{"format":"gainscape.baseline/2"}', "a baseline holds only what a comparison needs"],
    ] as const) {
      writeFileSync(file, text);
      const { code, stdout, stderr } = await run("report", file);
      expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
      expect(stderr).toContain(said);
      expect(stderr).toMatch(READABLE);
      expect(readdirSync(folder)).toEqual(["map.json"]);
    }
  });
});

describe("gainscape card", () => {
  it("simulates the sweep where there is no map yet, and writes the card alone", async () => {
    const folder = emptyFolder();
    const { code, stdout } = await run("card", SWEEP, "--out", folder, "--no-cache");
    expect(code).toBe(0);
    expect(stdout).toContain(join(folder, "card.html"));
    expect(readdirSync(folder)).toEqual(["card.flight.yaml", "card.html"]);
    const card = readFileSync(join(folder, "card.html"), "utf8");
    expect(card).toContain("<h1>Sandpiper r1</h1>");
    expect(card.match(/<li class="flight/g)).toHaveLength(10);
    const file = join(folder, "card.flight.yaml");
    expect(stdout).toContain(file);
    const printed = readFileSync(file, "utf8");
    const [answer] = printed.split(/\n(?=\n {2}- axis)/).slice(1, 2);
    const filled = `${printed.split(/\n(?=\n {2}- axis)/)[0]}\n${answer?.replace("# died_out: yes or no", "died_out: yes")}`;
    writeFileSync(file, filled);
    const { flight, model } = await readFlight(file);
    expect(flight.sightings).toMatchObject([
      { kind: "oscillation", axis: "roll", diedOut: true, gains: { own: true } },
    ]);
    expect(model.value.name).toBe("Sandpiper");
    const again = await run("card", SWEEP, "--out", folder);
    expect(again.stdout).toContain(join(folder, "card.flight-2.yaml"));
    expect(readFileSync(file, "utf8")).toBe(filled);
    expect(readFileSync(join(folder, "card.flight-2.yaml"), "utf8")).toBe(printed);
    await run("card", SWEEP, "--out", folder);
    expect(readdirSync(folder)).toEqual(["card.flight-2.yaml", "card.flight.yaml", "card.html"]);
  });

  it("refuses a craft with an axis that has no tune, unless the other one is asked for alone, on a test stand", async () => {
    const folder = emptyFolder();
    const model = join(folder, "nose-heavy.yaml");
    const battery = ["at: [-4 mm ± 4 mm, 0 mm, 46 mm ± 3 mm]", "at: [36 mm, 0 mm, 46 mm]"] as const;
    writeFileSync(model, changed(readFileSync("models/sandpiper-r1.yaml", "utf8"), battery));
    const out = join(folder, "out");
    const card = (...more: string[]) =>
      run(
        "card",
        "test/fixtures/causes.yaml",
        "--model",
        model,
        "--out",
        out,
        "--cache",
        join(folder, "cache"),
        ...more,
      );
    const refused = await card("--quiet");
    expect(refused.code).toBe(2);
    expect(refused.stderr).toMatch(
      /no card to fly by \(--test-stand roll: .*\): Pitch has no starting tune\. .*battery/,
    );
    expect(refused.stderr).toMatch(READABLE);
    expect(existsSync(join(out, "card.html"))).toBe(false);
    const stand = await card("--test-stand", "roll");
    expect({ code: stand.code, stdout: stand.stdout }).toMatchObject({
      code: 0,
      stdout: expect.stringContaining("never for flight"),
    });
    // What is seen on a stand is no flight: no file of sightings.
    expect(readdirSync(out)).toEqual(["card.html"]);
    expect(readFileSync(join(out, "card.html"), "utf8")).toContain("Never for flight");
    expect((await card("--test-stand", "pitch", "--quiet")).code).toBe(2);
  });
});
