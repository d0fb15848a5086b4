// A share of a command's draws on disk: what its draws came to, point by point. Their trials are not in it: those of a hundred
// draws are as many as those of several grids.
import { z } from "zod";
import { canonicalJson } from "../base/canonical.js";
import { fileProblem, InputError } from "../base/problem.js";
import type { Share } from "../run/share.js";
import { HEAD_SHAPE, readShareFile, type ShareKind, writeShareFile } from "./share-file.js";

const head = z.object({ format: z.literal("gainscape.draws/1"), ...HEAD_SHAPE });

export type DrawsHead = z.output<typeof head>;

const DRAWS: ShareKind<DrawsHead> = {
  kind: "draws",
  expected: "a share of draws (of gainscape --shard with --grid)",
  noun: "share of draws",
  largest: 64 * 2 ** 20,
  head,
};

const ofAxis = z.object({
  /** Trials simulated in the draws. */
  trials: z.int().min(0),
  /** Per point of the grid, [d * p.length + p]: in how many draws of the share it is safe. */
  counts: z.array(z.int().min(0)).max(1_000_000),
});

/** Per plan, in the order of the command; null: the plan has no draws. */
const content = z.array(z.object({ steps: z.int().min(0), roll: ofAxis, pitch: ofAxis }).nullable()).max(10_000);

/** What some draws of a plan came to; `steps`: simulated control periods. */
export type DrawsOfPlan = z.output<typeof content>[number];

export interface DrawsShare {
  readonly file: string;
  readonly head: DrawsHead;
  readonly plans: readonly DrawsOfPlan[];
}

export const drawsName = ({ index, of }: Share): string => `shard-${index}-of-${of}.draws`;
export const DRAWS_NAME = /^shard-\d+-of-\d+\.draws$/;

/** Throws NotWritten where the system refuses. */
export const writeDraws = (file: string, head: DrawsHead, plans: readonly DrawsOfPlan[]): void =>
  writeShareFile(file, head, [new TextEncoder().encode(canonicalJson(plans))]);

/** The share in a file. InputError where it is none, was cut short or was changed. */
export function readDraws(file: string): DrawsShare {
  const { head, content: bytes } = readShareFile(file, DRAWS);
  const plans = plansIn(bytes);
  if (plans === null || plans.length !== head.plans.length)
    throw new InputError([fileProblem(file, "holds what no share of draws comes to; simulate this shard again")]);
  return { file, head, plans };
}

function plansIn(bytes: Uint8Array): readonly DrawsOfPlan[] | null {
  try {
    return content.safeParse(JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(bytes))).data ?? null;
  } catch {
    return null; // no text, or no JSON
  }
}
