// The commands sweeps/guides/several-machines.md shows, as they stand there.
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { parse } from "yaml";
import { runIn, workplace } from "./elsewhere.js";

const page = readFileSync("sweeps/guides/several-machines.md", "utf8");
const blocks = (language: string): string[] =>
  [...page.matchAll(/^```(\w+)\n([\s\S]*?)^```$/gm)].flatMap(([, of, text = ""]) => (of === language ? [text] : []));

const commandsIn = (text: string): string[][] =>
  text
    .split("\n")
    .map((line) => line.replace(/\s+#.*/, ""))
    .filter((line) => line.startsWith("gainscape "))
    .map((line) => line.split(" ").slice(1));

/** As few draws as a sweep may ask for, in every sweep that asks for some. */
function withFewDraws(home: string): string {
  for (const name of readdirSync(join(home, "sweeps")).filter((file) => file.endsWith(".yaml"))) {
    const file = join(home, "sweeps", name);
    writeFileSync(file, readFileSync(file, "utf8").replace(/^uncertainty: \{draws: \d+/m, "uncertainty: {draws: 16"));
  }
  return home;
}

describe("the shell commands", () => {
  it.each(blocks("sh").map((text) => [commandsIn(text)] as const))("%s", async (commands) => {
    expect(commands.length).toBeGreaterThan(0);
    const home = withFewDraws(workplace([4, 3]));
    for (const words of commands) expect([words, (await runIn(home, ...words)).code]).toEqual([words, 0]);
  });
});

const wordsOf = ({ steps }: Job): string =>
  steps.map(({ run }) => run ?? "").find((run) => run.startsWith("npx gainscape ")) ?? "";

interface Job {
  readonly strategy?: { readonly matrix: { readonly share: readonly number[] } };
  readonly steps: readonly { readonly run?: string; readonly with?: { readonly path?: string } }[];
}

describe("the CI matrix", () => {
  const { share, gate } = parse(blocks("yaml")[0] as string).jobs as Record<"share" | "gate", Job>;
  const paths = ({ steps }: Job) => steps.flatMap((step) => step.with?.path ?? []);

  let home = "";
  beforeAll(async () => {
    home = workplace([10, 3]);
    expect((await runIn(home, "baseline", "sweeps/propeller-change.yaml", "--quiet")).code).toBe(0);
  });

  it("simulates every share, hands the shards on, and ends as the gate ends", async () => {
    const shares = share.strategy?.matrix.share ?? [];
    for (const one of shares) {
      const words = wordsOf(share)
        .replaceAll(/\$\{\{ matrix\.share \}\}/g, `${one}`)
        .split(" ")
        .slice(2);
      expect([words, (await runIn(home, ...words)).code]).toEqual([words, 0]);
    }
    expect(readdirSync(join(home, "shards")).length).toBe(shares.length);
    for (const path of paths(share)) expect(existsSync(join(home, path)), path).toBe(true);
    expect(paths(gate)).toEqual(["shards"]);
    const { code } = await runIn(home, ...wordsOf(gate).split(" ").slice(2));
    expect(code).toBe((await runIn(home, "gate", "sweeps/propeller-change.yaml", "--out", "alone")).code);
    for (const file of ["junit.xml", "summary.md"])
      expect(readFileSync(join(home, "reports/gate", file), "utf8")).toBe(
        readFileSync(join(home, "alone", file), "utf8"),
      );
  });
});

describe("the CI matrix with draws", () => {
  const { grid, draws, map } = parse(blocks("yaml")[1] as string).jobs as Record<"grid" | "draws" | "map", Job>;

  it("runs the shell commands, more shares of them, each where the shares before it are", () => {
    const inShell = blocks("sh")
      .map(commandsIn)
      .find((commands) => commands.some((words) => words.includes("--grid")));
    const shape = (words: readonly string[]) =>
      words
        .join(" ")
        .replace(/ --out \S+/, "")
        .replace(/--shard \S+/, "--shard i/n");
    const ofJob = (job: Job) =>
      shape(
        wordsOf(job)
          .replace(/\$\{\{ matrix\.share \}\}/, "1")
          .split(" ")
          .slice(2),
      );
    expect([...new Set(inShell?.map(shape))]).toEqual([grid, draws, map].map(ofJob));
    for (const job of [grid, draws]) {
      const of = job.strategy?.matrix.share.length;
      expect(wordsOf(job)).toContain(`--shard \${{ matrix.share }}/${of} `);
    }
    const paths = [grid, draws, map].map(({ steps }) => steps.flatMap((step) => step.with?.path ?? []));
    expect(paths).toEqual([["shards"], ["shards", "draws"], ["shards"]]);
  });
});
