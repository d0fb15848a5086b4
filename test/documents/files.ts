// The documents: every Markdown file of the checkout that is not made by a run.
import { readdirSync } from "node:fs";
import { join } from "node:path";

const FOLDERS = ["models", "reports/example", "reports/baselines", "src", "sweeps", "test"];

export const markdownFiles = (): string[] => {
  const below = FOLDERS.flatMap((folder) =>
    readdirSync(folder, { recursive: true, encoding: "utf8" }).map((file) => join(folder, file).replaceAll("\\", "/")),
  );
  const beside = [...readdirSync("."), ...readdirSync("reports").map((file) => `reports/${file}`)];
  return [...beside, ...below].filter((file) => file.endsWith(".md")).sort();
};
