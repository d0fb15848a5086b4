// What each verdict means to a pilot.
import type { Verdict } from "../base/measures.js";

interface VerdictWords {
  readonly title: string;
  readonly meaning: string;
}

export const VERDICT_WORDS: Readonly<Record<Verdict, VerdictWords>> = Object.freeze({
  sustained: { title: "Sustained", meaning: "The oscillation does not die out. Never fly here." },
  hot: { title: "Hot", meaning: "Motors heat up, or the commands are mostly noise." },
  ringing: { title: "Ringing", meaning: "Too sharp: it swings back or rings on. Less P or more D calms it." },
  loose: { title: "Loose", meaning: "Too weak: it drifts on, swings slowly, wobbles wide. More P helps." },
  clean: { title: "Clean", meaning: "No limit passed in any script." },
});
