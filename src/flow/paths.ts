// Where results go: names of sweeps and crafts reduced to what every file system takes.
import { join } from "node:path";

interface Named {
  readonly name: string;
  readonly version: string;
}

/** reports/<sweep>/<airframe>-<version>. */
export const mapFolder = (sweep: string, airframe: Named): string => join("reports", slug(sweep), craftSlug(airframe));

/** <root>/<sweep>/<base>-to-<candidate>. */
export const comparisonFolder = (root: string, sweep: string, base: Named, candidate: Named): string =>
  join(root, slug(sweep), `${craftSlug(base)}-to-${craftSlug(candidate)}`);

/** <root>/<sweep>/<airframe>-<version>.json. */
export const baselineFile = (root: string, sweep: string, airframe: Named): string =>
  join(root, slug(sweep), `${craftSlug(airframe)}.json`);

const craftSlug = ({ name, version }: Named): string => `${slug(name)}-${slug(version)}`;

const slug = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 48) || "unnamed";
