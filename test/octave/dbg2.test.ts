import { test } from "vitest";
import { craftOf, trimOf } from "./questions.js";
import { randomModel } from "./random-craft.js";
import { axisPieces } from "../../src/theory/pieces.js";
import { marginsOf } from "../../src/theory/margins.js";
import { readAirframe } from "../../src/flow/read.js";
import { askew, stretchedX, FULL, nudge, planOf } from "../fixtures/airframe.js";
test("dbg", () => {
    const counts: number[] = []; let t = performance.now();
    for (let k = 0; k < 100; k++) { const m = randomModel(k); const t0 = performance.now(); const c = craftOf(m), tr = trimOf(m); const n = axisPieces(c, tr, "pitch", m.gains).frequencies.length; counts.push(n); }
    console.log(counts.join(" "), performance.now() - t);
    for (const k of [51, 33, 20]) { const m = randomModel(k); console.log(marginsOf(axisPieces(craftOf(m), trimOf(m), "pitch", m.gains), m.gains.pitch)); }
    for (const a of [askew, stretchedX, readAirframe("models/dunlin-r1.yaml").value, readAirframe("models/turnstone-r1.yaml").value]) { const plan = planOf(a, nudge(1), [0.5], [FULL]); t = performance.now(); const n = axisPieces(plan.conditions[0].craft, plan.conditions[0].hover, "roll", { ...plan.holding, yaw: a.controller.yaw }).frequencies.length; console.log(n, performance.now() - t); }
});
