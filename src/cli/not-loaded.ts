// Why the program or a part of it could not be loaded. Imports as little as can be: it is loaded before the rest.
import { printable } from "../base/problem.js";
import { canOpen } from "../files/handles.js";
import { refusal } from "./refusal.js";

/** File handles that loading takes: modules are opened concurrently. */
const HANDLES = 256;

export interface LoadFault {
  /** For whoever started the command, with its line end. */
  readonly line: string;
  /** The system refused; the program itself seems complete. */
  readonly incomplete: boolean;
}

const fault = (reason: string, incomplete: boolean): LoadFault => ({
  line: `gainscape could not be loaded: ${reason}\n`,
  incomplete,
});

export function whyNotLoaded(error: unknown): LoadFault {
  const refused = refusal(error);
  if (refused !== null) return fault(refused, true);
  // Where handles run out while Node looks for a package, it says that the package is missing.
  const tooFew = canOpen(HANDLES, import.meta.url) ? null : refusal({ code: "EMFILE" });
  if (tooFew !== null) return fault(tooFew, true);
  const [first = ""] = String(error instanceof Error ? error.message : error).split("\n");
  const node = process.versions.node;
  const old = Number(node.split(".")[0]) < 20 ? `this is Node ${node}, and 20.19 or later is needed; ` : "";
  return fault(`${printable(first)} (${old}is it installed whole? npm ci does so)`, false);
}
