// The questions of gainscape new on a terminal. The only user of the prompt library.
import { WriteStream } from "node:tty";
import { intro, isCancel, outro, select, text } from "@clack/prompts";
import { printable } from "../base/problem.js";
import { QUESTIONS, type Question } from "../estimate/questions.js";
import { Interrupted } from "../files/interrupted.js";
import { type AnswerTexts, faultOf, keyOf } from "../flow/answers.js";

/** Every answer as it was typed. Throws Interrupted where the asking was ended, by Ctrl-C or a signal. */
export async function askAll(path: string, signal: AbortSignal): Promise<AnswerTexts> {
  // A stream of its own: standard output spells out control sequences, and this one is there to draw.
  const output = new WriteStream(1);
  // for a terminal that does not know its size
  if (!(output.columns > 0)) output.columns = 80;
  if (!(output.rows > 0)) output.rows = 24;
  output.on("error", () => {}); // a terminal that is gone hangs up, which ends the asking
  const texts: Record<string, string> = {};
  intro(printable(`A new model, ${path}. Ctrl-C ends without writing.`), { output });
  for (const question of QUESTIONS) {
    if (!applies(question, texts)) continue;
    const place = { signal: AbortSignal.any([signal]), output };
    const answer = await (question.choices === undefined ? typed(question, texts, place) : chosen(question, place));
    if (isCancel(answer)) throw new Interrupted(path);
    if (answer.trim() !== "") texts[keyOf(question)] = answer;
  }
  outro("That is all.", { output });
  return texts;
}

const applies = ({ without, with: needs }: Question, texts: AnswerTexts): boolean =>
  (without === undefined || texts[without] === undefined) && (needs === undefined || texts[needs] !== undefined);

interface Place {
  readonly signal: AbortSignal;
  readonly output: WriteStream;
}

const typed = (question: Question, before: AnswerTexts, place: Place) =>
  text({
    message: messageOf(question, before),
    placeholder: `like ${question.example}`,
    validate: (answer = "") => {
      if (answer.trim() === "" && question.optional) return undefined;
      if (answer.trim() === "") return `an answer is needed, like ${question.example}`;
      return faultOf(question, answer, before) ?? undefined;
    },
    ...place,
  });

const chosen = ({ ask, choices = [], hints = {} }: Question, place: Place) =>
  select({
    message: ask,
    options: choices.map((value) => {
      const hint = Object.entries(hints).find(([end]) => value.endsWith(end))?.[1];
      return hint === undefined ? { value } : { value, hint };
    }),
    ...place,
  });

const messageOf = ({ ask, after = [] }: Question, before: AnswerTexts): string =>
  after.find(({ key, starts }) => before[key]?.startsWith(starts))?.ask ?? ask;
