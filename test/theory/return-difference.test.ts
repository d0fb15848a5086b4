// Eigenvalues against frequency responses, without a reference program: closing one axis moves the characteristic
// polynomial from the open loop's to the closed one's, and their ratio on the unit circle is the return difference 1 + L.
import { expect, test } from "vitest";
import { D_UNIT, I_UNIT, P_UNIT } from "../../src/base/units.js";
import { axisPieces } from "../../src/theory/axis-pieces.js";
import { openLoop } from "../../src/theory/pieces.js";
import { askew, stretchedX } from "../fixtures/airframe.js";
import { craftOf, hovering, trimOf } from "../octave/questions.js";
import { randomModel } from "../octave/random-craft.js";
import { closedLoopPoles, type Pole } from "./closed-loop-poles.js";

const gains = (p: number, d: number, i = 40) => ({ p: p * P_UNIT, i: i * I_UNIT, d: d * D_UNIT });
const holding = { roll: gains(12, 1), pitch: gains(14, 1), yaw: gains(40, 0, 30) };
const models = [hovering(stretchedX, holding), hovering(askew, holding, 1.5), ...[3, 5, 8, 13, 21].map(randomModel)];

/** ln of the product of a point's distances to the poles. */
const size = (poles: readonly Pole[], re: number, im: number): number =>
  poles.reduce((sum, pole) => sum + 0.5 * Math.log((re - pole.re) ** 2 + (im - pole.im) ** 2), 0);

test.each(models.map((model, k) => [k, model] as const))("craft %i", (_, model) => {
  const [craft, trim] = [craftOf(model), trimOf(model)];
  for (const axis of ["roll", "pitch"] as const) {
    const pieces = axisPieces(craft, trim, axis, model.gains);
    const loop = openLoop(pieces, model.gains[axis]);
    const closed = closedLoopPoles(craft, trim, model.gains);
    const open = closedLoopPoles(craft, trim, { ...model.gains, [axis]: { p: 0, i: 0, d: 0 } });
    expect(closed.length).toBe(open.length);
    let most = 0;
    for (let k = 0; k < pieces.frequencies.length; k += 7) {
      const angle = pieces.frequencies[k] / model.airframe.controller.rate;
      const ratio = size(closed, Math.cos(angle), Math.sin(angle)) - size(open, Math.cos(angle), Math.sin(angle));
      const difference = 0.5 * Math.log((1 + loop.re[k]) ** 2 + loop.im[k] ** 2);
      most = Math.max(most, Math.abs(ratio - difference));
    }
    expect(most).toBeLessThan(1e-6);
  }
});
