// What is too long for every commit: hostile inputs by the ten thousand, kills at any moment, other engines, a real full
// disk, the packed package, a real cluster. Each step says what it saw; one that fails does not stop the others.
//
//   npm run nightly                    all of it
//   npm run nightly -- kills engines   these steps alone
import { step as engines } from "./engines.mjs";
import { step as fullDisk } from "./full-disk.mjs";
import { step as hostile } from "./hostile.mjs";
import { step as kills } from "./kills.mjs";
import { step as log } from "./log.mjs";
import { step as packed } from "./packed.mjs";
import { step as slurm } from "./slurm.mjs";
import { step as together } from "./together.mjs";

const STEPS = { kills, together, "full-disk": fullDisk, engines, packed, log, slurm, hostile };

const wanted = process.argv.slice(2);
const unknown = wanted.filter((name) => !(name in STEPS));
if (unknown.length > 0) {
  console.error(`no step ${unknown.join(", ")}; there are ${Object.keys(STEPS).join(", ")}`);
  process.exit(2);
}

let failed = 0;
for (const [name, step] of Object.entries(STEPS)) {
  if (wanted.length > 0 && !wanted.includes(name)) continue;
  const began = performance.now();
  let outcome;
  try {
    outcome = `ok: ${await step()}`;
  } catch (error) {
    failed++;
    outcome = `FAILED: ${error.stack ?? error}`;
  }
  console.log(`${name}, ${((performance.now() - began) / 1000).toFixed(0)} s, ${outcome}`);
}
console.log(failed === 0 ? "All nightly steps passed." : `${failed} steps failed.`);
process.exitCode = failed === 0 ? 0 : 1;
