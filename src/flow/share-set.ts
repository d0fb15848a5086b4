// Shares that belong together: of one command, none missing, none twice.
import { join } from "node:path";
import { canonicalJson } from "../base/canonical.js";
import { fileProblem, InputError, type Problem } from "../base/problem.js";
import { version } from "../base/version.js";
import { namesIn } from "../files/binary.js";
import type { Plan } from "../plan/plan.js";
import type { Share } from "../run/share.js";
import type { ShareHead } from "./share-file.js";

interface OneShare {
  readonly file: string;
  readonly head: ShareHead;
}

/** Files of a folder whose names match. InputError where there is no such folder. */
export const filesNamed = (folder: string, name: RegExp): string[] =>
  namesIn(folder)
    .filter((one) => name.test(one))
    .map((one) => join(folder, one));

/** The shares, at least one, in their order. InputError where they are not all shares of one command; `nameOf` is what a missing one is called. */
export function wholeSet<One extends OneShare>(shares: readonly One[], nameOf: (share: Share) => string): One[] {
  const [first, ...others] = shares as [One, ...One[]];
  const foreign = others.flatMap((share) => differenceFrom(share, first));
  if (foreign.length > 0) throw new InputError(foreign);
  const problems = [...overlaps(shares), ...gaps(shares, first, nameOf)];
  if (problems.length > 0) throw new InputError(problems);
  return [...shares].sort((a, b) => a.head.share.index - b.head.share.index);
}

/** Why a share, whole as it is, is of no use to these plans and the code of this digest; null where it is. */
export function staleProblem({ file, head }: OneShare, plans: readonly Plan[], code: string): Problem | null {
  if (head.product.version !== version() || head.code !== code)
    return fileProblem(file, `simulated by another version of gainscape (${head.product.version}); simulate it again`);
  const digests = plans.map((plan) => plan.digests.plan);
  if (digests.join() !== head.plans.map(({ digest }) => digest).join())
    return fileProblem(file, "a model, sweep or script was changed since this share was simulated");
  return null;
}

function differenceFrom({ file, head }: OneShare, first: OneShare): Problem[] {
  const parts: readonly (readonly [string, (head: ShareHead) => unknown])[] = [
    ["shared out over another number of machines", ({ share }) => share.of],
    ["simulated by another version of gainscape", ({ product, code }) => [product, code]],
    ["shared out by another command", ({ command }) => command],
    ["simulated with other models or sweeps", ({ plans }) => plans],
  ];
  const differs = parts.find(([, part]) => canonicalJson(part(head)) !== canonicalJson(part(first.head)));
  return differs === undefined ? [] : [fileProblem(file, `${differs[0]} than ${first.file}`)];
}

function overlaps(shares: readonly OneShare[]): Problem[] {
  return shares.flatMap(({ file, head }, at) => {
    const other = shares.slice(0, at).find((other) => other.head.share.index === head.share.index);
    return other === undefined ? [] : [fileProblem(file, `share ${shareText(head.share)} again, as ${other.file}`)];
  });
}

function gaps(shares: readonly OneShare[], { head: { share } }: OneShare, nameOf: (share: Share) => string): Problem[] {
  const there = new Set(shares.map(({ head }) => head.share.index));
  const missing = Array.from({ length: share.of }, (_, at) => at + 1).filter((index) => !there.has(index));
  return missing.map((index) => fileProblem(nameOf({ index, of: share.of }), "this share is missing"));
}

const shareText = ({ index, of }: Share): string => `${index} of ${of}`;
