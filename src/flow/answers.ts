// Answers in: from a file, from options, or both, an option before the file.

import { check } from "../base/check.js";
import { type Document, problemAt } from "../base/document.js";
import { fileProblem, InputError, type Path, type Problem, pathText } from "../base/problem.js";
import { ANSWERS_FORMAT, type Answers, answerFaults, answersSchema } from "../estimate/answers.js";
import { asWritten, flagOf, QUESTIONS, type Question } from "../estimate/questions.js";
import { readDocument } from "../files/read.js";
import { refuseOthers } from "./file-kind.js";

/** Texts by the question's key, as "pack.cells". */
export type AnswerTexts = Readonly<Record<string, string>>;

export const keyOf = ({ path }: Question): string => pathText(path);

/** The answers of a file (null: none) and of options. InputError with every problem; what is missing makes one line. */
export function readAnswers(file: string | null, texts: AnswerTexts): Answers {
  if (file !== null) refuseOthers(file, ["answers"], `answers (${ANSWERS_FORMAT})`);
  const document = withTexts(file === null ? NO_FILE : readDocument(file), texts);
  try {
    const answers = check(answersSchema, document);
    const faults = answerFaults(answers);
    if (faults.length > 0) throw new InputError(faults.map(({ path, message }) => problemAt(document, path, message)));
    return answers;
  } catch (error) {
    throw error instanceof InputError ? inTheUsersTerms(error, file, texts) : error;
  }
}

const NO_FILE: Document = { file: "", data: { format: ANSWERS_FORMAT }, place: () => ({ line: 0, column: 0 }) };

function withTexts(document: Document, texts: AnswerTexts): Document {
  if (typeof document.data !== "object" || document.data === null || Array.isArray(document.data)) return document;
  const data = structuredClone(document.data) as Record<string, unknown>;
  for (const question of QUESTIONS) {
    const text = texts[keyOf(question)];
    if (text !== undefined) put(data, question.path, asWritten(question, text));
  }
  return { ...document, data };
}

function put(into: Record<string, unknown>, [first, ...rest]: Path, value: unknown): void {
  const key = String(first);
  if (rest.length === 0) {
    into[key] = value;
    return;
  }
  const inner = into[key];
  const next = typeof inner === "object" && inner !== null && !Array.isArray(inner) ? inner : {};
  into[key] = next;
  put(next as Record<string, unknown>, rest, value);
}

/** A problem of an option names the option; everything that is missing stands in one line. */
function inTheUsersTerms(error: InputError, file: string | null, texts: AnswerTexts): InputError {
  const missing = error.problems.filter(({ message }) => message === "missing");
  const others = error.problems.filter(({ message }) => message !== "missing");
  const keys = missing.flatMap(({ path }) => {
    const below = QUESTIONS.filter(
      (one) => keyOf(one).startsWith(`${path}.`) && one.optional === undefined && one.without === undefined,
    );
    return below.length > 0 ? below.map(keyOf) : [path];
  });
  return new InputError(
    [...(keys.length > 0 ? [missingLine(keys, file)] : []), ...others.map((one) => named(one, texts))],
    error.more,
  );
}

function missingLine(keys: readonly string[], file: string | null): Problem {
  if (file !== null) return fileProblem(file, `missing: ${keys.join(", ")}`);
  const flags = keys.map((key) => {
    const question = QUESTIONS.find((one) => keyOf(one) === key);
    return question === undefined ? key : flagOf(question);
  });
  return fileProblem(
    "new",
    `missing: ${flags.join(", ")}; give them, or --answers FILE, or run it on a terminal, which asks`,
  );
}

function named(problem: Problem, texts: AnswerTexts): Problem {
  const question = QUESTIONS.find((one) => {
    const key = keyOf(one);
    return problem.path === key || problem.path.startsWith(`${key}[`);
  });
  if (question === undefined) return problem;
  const asText = texts[keyOf(question)] !== undefined;
  return asText || problem.line === 0 ? { ...problem, file: flagOf(question), line: 0, column: 0, path: "" } : problem;
}

/** What is wrong with one answer as typed, together with those before it; null where nothing is. */
export function faultOf(question: Question, text: string, before: AnswerTexts): string | null {
  const document = withTexts(NO_FILE, { ...before, [keyOf(question)]: text });
  const problems = problemsIn(document);
  const key = keyOf(question);
  const ours = problems.find(
    ({ path, message }) => message !== "missing" && (path === key || path.startsWith(`${key}[`)),
  );
  return ours?.message ?? null;
}

/** The faults of answers of which some are still to come. */
function problemsIn(document: Document): readonly Problem[] {
  try {
    check(answersSchema, document);
    return [];
  } catch (error) {
    if (error instanceof InputError) return error.problems;
    throw error;
  }
}
