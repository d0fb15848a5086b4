// The commands sweeps/guides/several-machines.md shows, as they stand there.
import { existsSync, readdirSync, readFileSync } from "node:fs";
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

describe("the shell commands", () => {
  it.each(blocks("sh").map((text) => [commandsIn(text)] as const))("%s", async (commands) => {
    expect(commands.length).toBeGreaterThan(0);
    const home = workplace([4, 3]);
    for (const words of commands) expect([words, (await runIn(home, ...words)).code]).toEqual([words, 0]);
  });
});

interface Job {
  readonly strategy?: { readonly matrix: { readonly share: readonly number[] } };
  readonly steps: readonly { readonly run?: string; readonly with?: { readonly path?: string } }[];
}

describe("the CI matrix", () => {
  const { share, gate } = parse(blocks("yaml")[0] as string).jobs as Record<"share" | "gate", Job>;
  const wordsOf = ({ steps }: Job): string =>
    steps.map(({ run }) => run ?? "").find((run) => run.startsWith("npx gainscape ")) ?? "";
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
