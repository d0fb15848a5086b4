// What each change does, for a terminal: a finding a line, the largest gain first, then each axis.
import type { Effects } from "../../compare/effect-format.js";
import { AXES } from "../../words/axes.js";
import { axisEffectWords } from "../../words/effect-words.js";
import { findingWords } from "../../words/finding-words.js";
import { printable } from "../../words/printable.js";

/** Control characters removed, no colour. */
export function renderEffectsText(effects: Effects): string {
  const fit = printable(effects);
  const lines = fit.effects.flatMap((effect) => {
    const { found } = effect;
    const axes = found === null ? [] : AXES.map((name) => `  ${name}: ${axisEffectWords(found.axes[name])}`);
    return [findingWords(effect), ...axes];
  });
  return `What each of them does, the largest gain of safe ground first:\n${lines.join("\n").replaceAll("\u00a0", " ")}\n`;
}
