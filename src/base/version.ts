// The product's own version, read once from its package.
import { createRequire } from "node:module";

const { version: packaged } = createRequire(import.meta.url)("../../package.json") as { version: string };

export const version = (): string => packaged;
