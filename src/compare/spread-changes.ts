// How far the numbers of two models may be off, where that differs: "motor.resistance ±: 30 % → 10 %".
import type { Spread, SpreadSize } from "../base/spread.js";
import type { KeyChange } from "./format.js";
import { valueInFileUnits } from "./model-keys.js";

type Spreads = readonly Spread[];

/** By key; a change of the number itself is none of its spread. */
export function spreadChanges(before: unknown, after: unknown): KeyChange[] {
  const [from, to] = [byKey(before), byKey(after)];
  return [...new Set([...from.keys(), ...to.keys()])].sort().flatMap((key): KeyChange[] => {
    const [was, is] = [textOf(from.get(key)), textOf(to.get(key))];
    return was === is ? [] : [{ key: `${key} ±`, before: was, after: is }];
  });
}

const byKey = (model: unknown): ReadonlyMap<string, Spread> =>
  new Map(((model as { readonly spreads?: Spreads }).spreads ?? []).map((spread) => [spread.key, spread]));

/** A share of the number, or its own unit where the number is nothing; "none" where it is taken as exact. */
function textOf(spread: Spread | undefined): string {
  if (spread === undefined) return "none";
  const { law, key } = spread;
  const share = shareOf(spread);
  const size = share === null ? (valueInFileUnits(key, spread.size) ?? "") : `${share} %`;
  return law === "uniform" ? `${size}, anywhere between` : size;
}

function shareOf({ law, size, nominal }: SpreadSize & Pick<Spread, "nominal">): number | null {
  const share = law === "log-normal" ? size : nominal === 0 ? null : size / Math.abs(nominal);
  return share === null ? null : Number((100 * share).toPrecision(4));
}
