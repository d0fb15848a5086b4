// A flight's log of 200 MB and 10 million rows: read within 1 GiB of memory.
import { closeSync, openSync, readFileSync, writeFileSync, writeSync } from "node:fs";
import { join } from "node:path";
import { expectCode, inFolder, MAIN, ROOT } from "./command.mjs";

const ROWS = 10_000_000;
const MOST = 1024; // MiB

export const step = () =>
  inFolder(async (home) => {
    const bytes = writeLog(join(home, "log.csv"));
    const flight = join(home, "flight.yaml");
    writeFileSync(flight, flightText(join(ROOT, "models/sandpiper-r1.yaml")));
    const peaks = join(home, "peaks");
    const env = {
      GAINSCAPE_PEAKS: peaks,
      NODE_OPTIONS: `--import=${new URL("peak.mjs", import.meta.url).href}`,
    };
    const output = await expectCode(0, process.execPath, [MAIN, "check", flight], { env });
    if (!output.includes(`${ROWS} rows of 5000 s, 2000 a second; 5000 s in one piece`)) throw new Error(output);
    const peak = Math.ceil(Number(readFileSync(peaks, "utf8").trim()) / 1024);
    if (!(peak <= MOST)) throw new Error(`${peak} MiB used, at most ${MOST} are allowed`);
    return `${Math.round(bytes / 1e6)} MB of ${ROWS} rows read with ${peak} MiB (${MOST} allowed)`;
  });

/** Time and three rates, whole numbers that look at random; bytes written. */
function writeLog(path) {
  const file = openSync(path, "w");
  let bytes = writeSync(file, "time_us,x,y,z\n");
  const block = 100_000;
  for (let from = 0; from < ROWS; from += block) {
    const lines = Array.from({ length: block }, (_, k) => {
      const row = from + k;
      return `${row * 500},${((row * 7919) % 199) - 99},${((row * 104_729) % 199) - 99},${(row * 1_299_709) % 99}\n`;
    });
    bytes += writeSync(file, lines.join(""));
  }
  closeSync(file);
  return bytes;
}

const flightText = (model) => `format: gainscape.flight/1
title: a long log
model: ${model}
log:
  file: log.csv
  time: {column: time_us, unit: us}
  rate:
    roll: {column: x, unit: deg/s}
    pitch: {column: y, unit: deg/s}
    yaw: {column: z, unit: deg/s}
`;
