// The named grounds of a map: the five verdicts and the safe ground.
import { VERDICTS, type Verdict } from "../base/measures.js";
import { VERDICT_WORDS } from "../words/verdict-words.js";
import type { GroundAxis } from "./crossings.js";
import type { Polyline } from "./frame.js";
import type { Region } from "./lettering.js";

/** The five verdicts and the safe ground as regions that do not overlap; `sure`: safe ground other than the model's as written. */
export function regionsOf(
  { verdict, safe }: GroundAxis,
  outline: readonly Polyline[],
  sure?: { readonly name: string; readonly isSafe: (i: number, j: number) => boolean },
): Region[] {
  const isSafe = sure?.isSafe ?? ((i: number, j: number) => safe[i]?.[j] === true);
  const of = (one: Verdict): Region => ({
    name: VERDICT_WORDS[one].title,
    role: one === "sustained" ? "letter-on-sustained" : "ink",
    halo: one,
    belongs: (i, j) => verdict[i]?.[j] === one && !(one === "clean" && isSafe(i, j)),
  });
  return [{ name: sure?.name ?? "Safe", role: "ink", halo: "safe", belongs: isSafe, outline }, ...VERDICTS.map(of)];
}
