// Prop wash: how often bursts come, how large they are, and where descent is worst.

import { washShare } from "../../../src/airframe/wash.js";
import { smoothLength } from "../../../src/base/fourier.js";
import { stream } from "../../../src/base/random.js";
import { readAirframe } from "../../../src/flow/read.js";
import { throughPoles } from "../../../src/kernel/bursts.js";
import { multisine } from "../../../src/kernel/multisine.js";
import { alike, type Group } from "../check.js";

const SPEED = 1000; // rad/s
const PERIOD = 1 / 4000; // s

/** One period of bursts. */
function noise(revolutions: number, length: number, name: string): Float64Array {
  const through = throughPoles(
    { period: PERIOD, speed: new Float64Array(length).fill(SPEED) },
    { revolutions },
    length,
  );
  return through(multisine(length, stream("trust wash", name)), new Float64Array(length));
}

const WINDOW = 40_000; // control periods, 10 s: the longest script, so that few lines stand for the slow part

/** Mean revolutions from one passage upwards through the mean to the next. */
function spacing(revolutions: number): number {
  const windows = 40;
  let crossings = 0;
  for (let n = 0; n < windows; n++) {
    const values = noise(revolutions, WINDOW, `spacing ${revolutions} ${n}`);
    for (let k = 0; k < WINDOW; k++) if ((values.at(k - 1) ?? 0) < 0 && values[k] >= 0) crossings++;
  }
  return (windows * WINDOW * PERIOD * SPEED) / (2 * Math.PI) / crossings;
}

/** Peak to peak over 500 revolutions, mean of many records, for the shipped Sandpiper at its worst descent, % of thrust. */
function peakToPeak(): number {
  const { wash } = readAirframe("models/sandpiper-r1.yaml").value;
  const steps = smoothLength((500 * 2 * Math.PI) / SPEED / PERIOD);
  const records = Array.from({ length: 40 }, (_, k) => {
    const values = noise(wash.revolutions, steps, `record ${k}`);
    return values.reduce((most, v) => Math.max(most, v), 0) - values.reduce((least, v) => Math.min(least, v), 0);
  });
  return (100 * wash.rms * records.reduce((sum, one) => sum + one, 0)) / records.length;
}

/** Descent ratio at which the wash is worst. */
const worst = () => {
  const ratios = Array.from({ length: 301 }, (_, k) => k / 100);
  return ratios.reduce((most, ratio) => (washShare(ratio) > washShare(most) ? ratio : most), 0);
};

const STACK =
  "J. Stack, F.X. Caradonna and O. Savas, Flow Visualizations and Extended Thrust Time Histories (2004), abstract";
const VEISMANN = "M. Veismann, C. Dougherty and M. Gharib, Flow (2023), abstract: 1.2 to 1.3 vh";

export const WASH: Group = {
  title: "Prop wash",
  checks: [
    ...alike(
      {
        kind: "statistic",
        source: `${STACK}: every 20 to 50 revolutions`,
        status: "seen in a document",
        unit: "revolutions",
        within: { share: 0.05 },
      },
      [20, 30, 50].map((revolutions) => [
        `from burst to burst, ${revolutions} declared`,
        revolutions,
        () => spacing(revolutions),
      ]),
    ),
    ...alike(
      {
        kind: "estimate",
        source: `${STACK}: up to 95 % peak to peak`,
        status: "seen in a document",
        unit: "%",
        within: { unit: 20 },
      },
      [
        [
          "thrust peak to peak over 500 revolutions, shipped Sandpiper in its worst descent; 95 % is the most that was seen, the size is our estimate",
          95,
          peakToPeak,
        ],
      ],
    ),
    ...alike({ source: VEISMANN, status: "seen in a document", unit: "vh", within: { unit: 0.05 } }, [
      ["descent speed at which thrust loss and fluctuation peak", 1.25, worst],
    ]),
  ],
};
