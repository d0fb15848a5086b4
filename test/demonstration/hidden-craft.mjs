// The craft behind models/flights/meadow-2.csv. Invented: a Sandpiper as it might come from the bench, every number below
// 1.3 standard deviations from the one that its model has (hidden-craft.test.ts). Nothing in src or models knows it.
import { parseAirframe } from "../../dist/airframe/resolve.js";
import { readDocument } from "../../dist/files/read.js";

/** By key, as the model would spell them. */
export const HIDDEN = {
  "motor.resistance": "88.9 mohm",
  "motor.bell_inertia": "2.94e-6 kg m^2",
  "propeller.inertia": "4.61e-6 kg m^2",
  "controller.latency": "0.8 ms",
  "wash.rms": "13.8 %",
};

/** Gains as the pilot set them, in the controller's units. */
export const GAINS = {
  roll: { p: 2300, i: 1200, d: 1680 },
  pitch: { p: 2900, i: 1200, d: 2000 },
  yaw: { p: 3000, i: 1500, d: 0 },
};

export const MODEL = "models/sandpiper-r1.yaml";

/** The airframe of the hidden craft, read beside the shipped model. */
export function hiddenCraft() {
  const document = readDocument(MODEL);
  const data = structuredClone(document.data);
  for (const [key, value] of Object.entries(HIDDEN)) {
    const [group, name] = key.split(".");
    data[group][name] = value;
  }
  return parseAirframe({ ...document, data });
}
