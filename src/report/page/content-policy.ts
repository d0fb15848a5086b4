// The page may use its own style sheet and nothing else: no script, no network.
import { createHash } from "node:crypto";

/** Value of the policy for a page with this one style sheet. */
export function contentPolicy(style: string): string {
  const digest = createHash("sha256").update(style).digest("base64");
  return `default-src 'none'; style-src 'sha256-${digest}'; img-src data:; base-uri 'none'; form-action 'none'`;
}
