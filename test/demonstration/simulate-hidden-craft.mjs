// Writes models/flights/meadow-2.csv: the log that the hidden craft would have brought back.
//   node test/demonstration/simulate-hidden-craft.mjs
import { writeFileSync } from "node:fs";
import { resolve } from "node:path";
import { hiddenLogText } from "./hidden-log.mjs";

const root = resolve(import.meta.dirname, "../..");
process.chdir(root);
writeFileSync("models/flights/meadow-2.csv", hiddenLogText());
