import { valueAt } from "../../src/airframe/draws.js";
import { mixerOf } from "../../src/airframe/mixer.js";
import { parseAirframe, resolvedAirframe } from "../../src/airframe/resolve.js";
import { airframeSchema } from "../../src/airframe/schema.js";
import type { Document } from "../../src/base/document.js";
import { exp } from "../../src/base/elementary.js";
import { spreadsIn } from "../../src/base/spreads-in.js";
import { lnNormalBelow } from "../../src/fit/normal-log.js";
import type { Unknowns } from "../../src/fit/unknowns.js";

export function unknownsOf(document: Document): Unknowns {
  const file = airframeSchema.parse(document.data);
  const spreads = spreadsIn(airframeSchema, document.data);
  const { rotors, centreOfMass } = parseAirframe(document);
  return {
    keys: spreads.map(({ key }) => key),
    mixer: mixerOf(rotors, centreOfMass),
    airframeAt(scores) {
      const drawn = structuredClone(file) as never;
      for (const [k, spread] of spreads.entries()) {
        const value = valueAt(spread, exp(lnNormalBelow(scores[k])));
        let here = drawn as Record<string | number, unknown>;
        const keys = [...spread.path];
        const last = keys.pop()!;
        for (const key of keys) here = here[key] as never;
        here[last] = Math.min(spread.most, Math.max(spread.least, value));
      }
      return resolvedAirframe(drawn);
    },
  };
}
