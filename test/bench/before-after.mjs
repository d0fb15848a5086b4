// An earlier version beside this one, in one run and in turn: node test/bench/before-after.mjs FOLDER, a checkout of the earlier
// version with its dist built. Prints a table, and writes it to test/bench/results/before-after.md.
import { execFileSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { cpus } from "node:os";
import { fileURLToPath } from "node:url";
import { median } from "./figures.mjs";
import { firstLine, together } from "./runs.mjs";

const [folder] = process.argv.slice(2);
if (folder === undefined) throw new Error("usage: node test/bench/before-after.mjs FOLDER");
const workers = Math.min(2, cpus().length);
const ROUNDS = 3;

/** The commit that is checked out in a folder. */
const versionOf = (cwd) => execFileSync("git", ["rev-parse", "--short", "HEAD"], { cwd, encoding: "utf8" }).trim();

/** What each version takes, one after the other in every round. */
async function inTurn(rounds, take) {
  const [before, after] = [[], []];
  for (let round = 0; round < rounds; round++) {
    before.push(await take(folder));
    after.push(await take("."));
  }
  return [before, after];
}

const stepsFile = fileURLToPath(new URL("./steps.mjs", import.meta.url));
const steps = async (cwd) => JSON.parse(execFileSync(process.execPath, [stepsFile], { cwd, encoding: "utf8" }));
const run = (grid) => async (cwd) => (await together({ folder: cwd, grid, workers }))[0];

const rows = [];
function row(title, unit, [before, after], of) {
  const [was, is] = [before, after].map((all) => (all.some((one) => of(one) === null) ? null : median(all.map(of))));
  const text = (value) => (value === null ? "none" : `${value.toPrecision(3)} ${unit}`);
  rows.push(`| ${title} | ${text(was)} | ${text(is)} | ${was === null ? "" : (was / is).toFixed(2)} |`);
  console.log(rows.at(-1));
}

console.log(
  `before: ${versionOf(folder)}, after: ${versionOf(".")}; ${cpus()[0]?.model.trim()}, ${cpus().length} cores\n`,
);
const ofSteps = await inTurn(ROUNDS, steps);
row("vector kernel, a step of many trials", "ns", ofSteps, ({ many }) => many);
row("vector kernel, a step of one trial alone", "ns", ofSteps, ({ alone }) => alone);
row("vector kernel, a step with everything on", "ns", ofSteps, ({ extended }) => extended);
row(
  "first-tune as shipped, first line after the command",
  "s",
  await inTurn(2, (cwd) => firstLine(2, cwd)),
  (it) => it,
);
const small = await inTurn(ROUNDS, run({ p: 8, d: 8 }));
row("8 x 8, all scripts, no strips, whole run", "s", small, ({ seconds }) => seconds);
row("the same, processor", "s", small, ({ processorSeconds }) => processorSeconds);
const middle = await inTurn(1, run({ p: 32, d: 32 }));
row("32 x 32, the same", "s", middle, ({ seconds }) => seconds);
const far = await inTurn(1, run({ p: 32, d: 32, far: true, leaveOut: true }));
row("32 x 32 reaching far, the same", "s", far, ({ seconds }) => seconds);
const drawn = await inTurn(1, run({ p: 16, d: 16, draws: 32 }));
row("16 x 16 with 32 draws, whole run", "s", drawn, ({ seconds }) => seconds);
row("the same, processor", "s", drawn, ({ processorSeconds }) => processorSeconds);
row("the same, memory at most", "MiB", drawn, ({ mebibytes }) => mebibytes);

const heading = `Before: ${versionOf(folder)}. After: ${versionOf(".")}. ${cpus()[0]?.model.trim()}, ${cpus().length} cores, Node ${process.version}; medians of ${ROUNDS} rounds in turn, one round from 32 x 32 on.`;
const table = `${heading}\n\n| what | before | after | before over after |\n| --- | --- | --- | --- |\n${rows.join("\n")}\n`;
writeFileSync(new URL("./results/before-after.md", import.meta.url), table);
