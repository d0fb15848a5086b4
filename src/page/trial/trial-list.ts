// The trials of a point as a list to choose from, worst first: the first few, and the rest folded away.
import type { Limits } from "../../map/verdict.js";
import type { Variant } from "../../plan/plan.js";
import { count } from "../../words/numbers.js";
import { byId, make } from "../dom.js";
import type { Simulator } from "../simulator.js";
import { tallyWords, variantWords, worstWords } from "./trial-words.js";
import { doesNotDieOut, type RankedTrial } from "./worst-first.js";

const SHOWN = 6; // before the fold

export interface TrialList {
  readonly show: (ranked: readonly RankedTrial[], simulator: Simulator, decider: number) => void;
  /** A sentence in place of the list; `ask`: with the button that has it made. */
  readonly clear: (words: string, ask?: boolean) => void;
  /** Marks the trial that is shown. */
  readonly mark: (variant: number) => void;
}

export function trialList(limits: Limits, choose: (variant: Variant) => void): TrialList {
  const words = byId("trial-list-words");
  const [top, rest, fold] = [byId("trial-list"), byId("trial-list-rest"), byId<HTMLDetailsElement>("trial-list-fold")];
  const row = ({ variant, trial, worst }: RankedTrial, simulator: Simulator, decider: number): HTMLElement => {
    const button = make("input", { type: "radio", name: "trial-of-point", value: variant.index });
    button.addEventListener("change", () => choose(variant));
    const grave = doesNotDieOut({ worst }) || worst.kind === "beyond";
    const why = make(
      "span",
      { class: grave ? "why over-limit" : "why" },
      worstWords({ variant, trial, worst }, limits),
    );
    const decided = variant.index === decider ? [" ", make("em", {}, "decided the point")] : [];
    const which = make("span", {}, variantWords(simulator, variant), ...decided);
    return make("li", {}, make("label", {}, button, which, why));
  };
  return {
    show(ranked, simulator, decider) {
      const rows = ranked.map((one) => row(one, simulator, decider));
      words.textContent = tallyWords(ranked);
      byId("trial-list-ask").hidden = true;
      top.replaceChildren(...rows.slice(0, SHOWN));
      rest.replaceChildren(...rows.slice(SHOWN));
      rest.setAttribute("start", String(SHOWN + 1));
      fold.open = false;
      fold.hidden = rows.length <= SHOWN;
      byId("trial-list-more").textContent = `The other ${count(rows.length - SHOWN)}`;
    },
    clear(text, ask = false) {
      words.textContent = text;
      byId("trial-list-ask").hidden = !ask;
      fold.hidden = true;
      top.replaceChildren();
      rest.replaceChildren();
    },
    mark(variant) {
      for (const button of byId("trial-lists").querySelectorAll<HTMLInputElement>("input")) {
        button.checked = button.value === String(variant);
        if (button.checked && rest.contains(button)) fold.open = true;
      }
    },
  };
}
