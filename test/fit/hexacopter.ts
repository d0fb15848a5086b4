// Six rotors, turned out of line with the axes, their centre of mass off the middle.
import type { Airframe } from "../../src/airframe/airframe.js";
import { askew } from "../fixtures/airframe.js";

export const hexacopter: Pick<Airframe, "rotors" | "centreOfMass"> = {
  centreOfMass: askew.centreOfMass,
  rotors: [0, 1, 2, 3, 4, 5].map((k) => ({
    at: [0.11 * Math.cos(1 + k * 1.04), 0.11 * Math.sin(1 + k * 1.04), 0.01] as const,
    spin: k % 2 === 0 ? (1 as const) : (-1 as const),
  })),
};
