// How much of what moved between two versions of a craft comes from each group of numbers that changed, by theory.
import type { Airframe } from "../airframe/airframe.js";
import { at } from "../base/at.js";
import type { Axis } from "../sweep/sweep.js";
import { type AxisAnswer, type AxisQuestion, answerOf, MEASURES, type WhyMeasure } from "./answers.js";
import { joinedTeams, membersOf, type Team } from "./joined.js";
import { type Asked, hoverGuesses, type LoopsByAxis, loopsOf } from "./loops.js";
import { type ChangedGroup, mixed } from "./mixed.js";
import { type Coalition, MOST_EXACT, sharesOf } from "./shapley.js";

export interface WhyQuestion {
  readonly base: Airframe;
  readonly candidate: Airframe;
  readonly groups: readonly ChangedGroup[];
  readonly asked: Asked;
  readonly axes: Readonly<Record<Axis, AxisQuestion>>;
}

/** In units of AxisAnswer. */
export interface Parts {
  readonly whole: number;
  /** Per team; they add up to the whole. */
  readonly parts: readonly number[];
  /** Of 100 such parts 95 lie within this of the exact ones; null: they are exact. */
  readonly errors: readonly number[] | null;
}

export type AxisParts = Readonly<Record<WhyMeasure, Parts | null>>;

export interface WhyAnswer {
  /** Groups that count as one each, by place: those valid only together are in one. */
  readonly teams: readonly Team[];
  /** Null: theory has the measure of one side alone, or of neither, or not of all that lies between. */
  readonly axes: Readonly<Record<Axis, AxisParts>>;
  /** Orders of the changes that were looked at; null: all. */
  readonly orders: number | null;
}

const AXES: readonly Axis[] = ["roll", "pitch"];
type Answer = Readonly<Record<Axis, AxisAnswer>>;

/** Null where a side is no craft that theory can answer for, or nothing changed that it reads. */
export function whyMoved(question: WhyQuestion): WhyAnswer | null {
  const { groups } = question;
  const answer = groups.length === 0 ? null : answersOf(question);
  if (answer === null || answer(groups.map(() => true)) === null) return null;
  if (groups.length > MOST_EXACT) {
    const alone = answerOfTeams(
      groups.map((_, group) => [group]),
      groups,
      answer,
    );
    if (AXES.some((axis) => MEASURES.some((measure) => alone.axes[axis][measure] !== null))) return alone;
  }
  return answerOfTeams(teamsOf(groups, answer), groups, answer);
}

const VALUES = AXES.flatMap((axis) => MEASURES.map((measure) => ({ axis, measure })));

function answerOfTeams(teams: readonly Team[], groups: readonly ChangedGroup[], answer: AnswerTo): WhyAnswer {
  // What is not a number stays none in every sum, and so in every share of its measure.
  const worth = (coalition: Coalition): number[] => {
    const found = answer(withGroups(coalition, teams, groups));
    return VALUES.map(({ axis, measure }) => found?.[axis][measure] ?? Number.NaN);
  };
  const { shares, errors, orders } = sharesOf(teams.length, worth);
  const partsOf = (axis: Axis, measure: WhyMeasure): Parts | null => {
    const value = VALUES.findIndex((one) => one.axis === axis && one.measure === measure);
    const parts = shares.map((share) => at(share, value));
    const whole = parts.reduce((sum, part) => sum + part, 0);
    if (Number.isNaN(whole)) return null;
    return { whole, parts, errors: errors === null ? null : errors.map((error) => at(error, value)) };
  };
  const axisParts = (axis: Axis) =>
    Object.fromEntries(MEASURES.map((measure) => [measure, partsOf(axis, measure)])) as AxisParts;
  return { teams, axes: { roll: axisParts("roll"), pitch: axisParts("pitch") }, orders };
}

type AnswerTo = (chosen: Coalition) => Answer | null;

/** Each coalition's answer is found once; null where the base cannot hover. */
function answersOf({ base, candidate, groups, asked, axes }: WhyQuestion): AnswerTo | null {
  const guesses = hoverGuesses(base, asked);
  const before = guesses === null ? null : loopsOf(base, asked, guesses);
  if (guesses === null || before === null) return null;
  const found = new Map<string, Answer | null>();
  return (chosen) => {
    const key = chosen.map(Number).join("");
    const known = found.get(key);
    if (known !== undefined) return known;
    const airframe = mixed(base, candidate, groups, chosen);
    const loops = chosen.includes(true) ? loopsOf(airframe, asked, guesses) : before;
    const answer = loops === null ? null : answersOn(airframe, loops, before, axes);
    found.set(key, answer);
    return answer;
  };
}

const answersOn = (
  { controller }: Airframe,
  loops: LoopsByAxis,
  before: LoopsByAxis,
  axes: WhyQuestion["axes"],
): Answer => ({
  roll: answerOf(axes.roll, loops.roll, controller.roll.i, before.roll),
  pitch: answerOf(axes.pitch, loops.pitch, controller.pitch.i, before.pitch),
});

/** Joined where only together they are a craft; first those of one part of the model, where they are too many to try each with each. */
function teamsOf(groups: readonly ChangedGroup[], answer: AnswerTo): readonly Team[] {
  const parts = groups.length > MOST_EXACT ? byPart(groups) : groups.map((_, group) => [group]);
  const isWorth = (coalition: Coalition) => answer(withGroups(coalition, parts, groups)) !== null;
  return joinedTeams(parts.length, isWorth).map((team) => team.flatMap((part) => [...at(parts, part)]));
}

function byPart(groups: readonly ChangedGroup[]): Team[] {
  const partOf = ({ where }: ChangedGroup) => where[0]?.[0] ?? "";
  const names = [...new Set(groups.map(partOf))];
  return names.map((name) => groups.flatMap((group, place) => (partOf(group) === name ? [place] : [])));
}

const withGroups = (coalition: Coalition, teams: readonly Team[], groups: readonly ChangedGroup[]): Coalition =>
  membersOf(
    teams.filter((_, team) => at(coalition, team)),
    groups.length,
  );
