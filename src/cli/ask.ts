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
  const texts: Record<string, string> = {};
  intro(printable(`A new model, ${path}. Ctrl-C ends without writing.`), { output });
  for (const question of QUESTIONS) {
    if (!applies(question, texts)) continue;
    const answer = await (question.choices === undefined
      ? typed(question, texts, { signal, output })
      : chosen(question, { signal, output }));
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
    message: question.ask,
    placeholder: `like ${question.example}`,
    validate: (answer = "") => {
      if (answer.trim() === "" && question.optional) return undefined;
      return answer.trim() === ""
        ? `an answer is needed, like ${question.example}`
        : (faultOf(question, answer, before) ?? undefined);
    },
    ...place,
  });

const chosen = ({ ask, choices = [] }: Question, place: Place) =>
  select({ message: ask, options: choices.map((value) => ({ value })), ...place });
