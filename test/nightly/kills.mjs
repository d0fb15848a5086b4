// SIGKILL at moments spread over the whole run, then at every step of the writing of its files, in the middle of one where it
// writes: what is there is whole, and the run that is let through writes the bytes of an unbroken one.
import { existsSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { digestOf, expectSame, gainscape, inFolder, LONG, ROOT, run } from "./command.mjs";

const KILLS = 30;
const FILES = { "map.json": /\}\n$/, "index.html": /<\/html>\s*$/i, "card.html": /<\/html>\s*$/i, "points.csv": /\n$/ };

export const step = () =>
  inFolder(async (home) => {
    const [out, alone] = [join(home, "out"), join(home, "alone")];
    const began = performance.now();
    await run(["sweep", LONG, "--out", alone, "--no-cache", "--quiet"]);
    let unbroken = performance.now() - began;
    const env = { XDG_CACHE_HOME: join(home, "cache") };
    let killed = 0;
    for (let kill = 0; kill < KILLS; kill++) {
      // Early moments are met by runs that go on from the cache; late ones by fresh runs, since those would be over.
      const fresh = kill % 5 === 0 || kill >= KILLS / 3;
      if (fresh) rmSync(join(home, "cache"), { recursive: true, force: true });
      rmSync(out, { recursive: true, force: true });
      const started = performance.now();
      const { child, ended } = gainscape(["sweep", LONG, "--out", out, "--quiet"], { env });
      const timer = setTimeout(() => child.kill("SIGKILL"), (unbroken * (kill + 0.5)) / KILLS);
      const { code } = await ended;
      clearTimeout(timer);
      if (code === null) killed++;
      else if (fresh) unbroken = Math.min(unbroken, performance.now() - started); // the machine has become faster
      expectWhole(out);
    }
    if (killed < KILLS / 2) throw new Error(`only ${killed} of ${KILLS} runs were killed: the others were over before`);
    rmSync(out, { recursive: true, force: true });
    await run(["sweep", LONG, "--out", out, "--quiet"], { env });
    const { steps, complete } = await killedWriting(join(home, "writing"), env);
    for (const file of Object.keys(FILES)) expectSame(digestOf(join(out, file)), digestOf(join(alone, file)), file);
    const left = readdirSync(out).filter((file) => !(file in FILES));
    if (left.length > 0) throw new Error(`left behind: ${left.join(", ")}`);
    return `${killed} of ${KILLS} runs killed on the way, then one at each of ${steps} steps of writing: ${complete} files met, all whole; then the bytes of an unbroken run`;
  });

const SABOTAGE = pathToFileURL(join(ROOT, "test/cli/sabotage.mjs")).href;
const MOST_STEPS = 200;

/** A run killed at its first step of writing, the next at its second, until one gets through: steps, and files met whole. */
async function killedWriting(out, env) {
  let complete = 0;
  for (let steps = 0; steps < MOST_STEPS; steps++) {
    rmSync(out, { recursive: true, force: true });
    const injured = {
      SABOTAGE: "killed",
      SABOTAGE_AT: out,
      SABOTAGE_AFTER: String(steps),
      NODE_OPTIONS: `--import ${SABOTAGE}`,
    };
    const { code } = await gainscape(["sweep", LONG, "--out", out, "--quiet"], { env: { ...env, ...injured } }).ended;
    complete += expectWhole(out);
    if (code !== 0 && code !== null) throw new Error(`a run killed while it writes ended with ${code}`);
    if (code === null) continue;
    const last = Object.keys(FILES).length;
    if (steps < 3 * last || complete < last)
      throw new Error(`${steps} steps of writing, ${complete} files: nothing was killed`);
    return { steps, complete };
  }
  throw new Error(`writing takes more than ${MOST_STEPS} steps`);
}

/** How many files are there under their names; throws where one of them is not whole. */
function expectWhole(folder) {
  if (!existsSync(folder)) return 0;
  const there = readdirSync(folder).filter((file) => file in FILES);
  for (const file of there) {
    const text = readFileSync(join(folder, file), "utf8");
    if (!FILES[file].test(text)) throw new Error(`${file} is not whole: ${text.slice(-80)}`);
    if (file === "map.json") JSON.parse(text);
  }
  return there.length;
}
