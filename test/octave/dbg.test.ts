import { test } from "vitest";
import { craftOf, trimOf } from "./questions.js";
import { randomModel } from "./random-craft.js";
import { axisPieces, openLoop, loopPieces } from "../../src/theory/pieces.js";
import { marginsOf } from "../../src/theory/margins.js";
import { openLoopUnstable, closedLoopPoles, spectralRadius } from "../../src/theory/poles.js";
import { frequencyGrid } from "../../src/theory/frequency.js";
import { plantResponse } from "../../src/theory/plant.js";
import { controllerPieces } from "../../src/theory/controller.js";
import { realCrossings } from "../../src/theory/crossing.js";
test("dbg", () => {
  for (const [k, axis] of [[138, "pitch"], [51, "pitch"], [33, "pitch"], [20, "pitch"]] as const) {
    const m = randomModel(k); const c = craftOf(m), t = trimOf(m);
    const pieces = axisPieces(c, t, axis, m.gains);
    console.log(k, JSON.stringify(m.airframe.sensing.lowPass), JSON.stringify(m.airframe.controller.derivativeFilter), m.airframe.controller.rate, m.airframe.controller.latency, JSON.stringify(m.gains), "unstable open", pieces.unstable, spectralRadius(closedLoopPoles(c, t, m.gains)));
    console.log(marginsOf(pieces, m.gains[axis]));
    const L = openLoop(pieces, m.gains[axis]);
    console.log("crossings", realCrossings(pieces.frequencies, L, true).map(x => [x.frequency, x.re, x.rising]), "start", L.re[0], L.im[0], "end", L.re[599], L.im[599], L.im[598]);
    const fine = frequencyGrid(0.05, Math.PI * m.airframe.controller.rate, 12000);
    const many = loopPieces(fine, plantResponse(c, t, axis, m.gains, fine), controllerPieces(m.airframe, fine), { closes: true, unstable: pieces.unstable });
    console.log(marginsOf(many, m.gains[axis]));
    const F = openLoop(many, m.gains[axis]);
    console.log("crossings", realCrossings(fine, F, true).map(x => [x.frequency, x.re, x.rising]), "start", F.re[0], F.im[0]);
  }
});
