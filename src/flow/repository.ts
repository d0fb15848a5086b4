// A repository of one's own: a model, the sweep to begin with, one for the night, a job that runs it. Nothing that is there is
// overwritten, and either every file is written or none.
import { basename, dirname, join } from "node:path";
import { craftFolder } from "../base/folder-name.js";
import { fileProblem, InputError } from "../base/problem.js";
import { isTaken } from "../files/probe.js";
import { readText } from "../files/read.js";
import { removeIfThere, writeNew } from "../files/write.js";
import type { NewModel } from "./new-model.js";
import { checkOutput } from "./output.js";
import { shippedSweep } from "./shipped.js";

export interface Repository {
  readonly model: string;
  readonly firstTune: string;
  readonly night: string;
  readonly workflow: string;
  readonly ignored: string;
}

const NAMES = {
  firstTune: "sweeps/first-tune.yaml",
  night: "sweeps/night.yaml",
  workflow: ".github/workflows/night.yml",
  ignored: ".gitignore",
} as const;

/** Where its files go. */
export const repositoryAt = (folder: string, { airframe }: NewModel): Repository => ({
  model: join(folder, "models", `${craftFolder(airframe)}.yaml`),
  firstTune: join(folder, NAMES.firstTune),
  night: join(folder, NAMES.night),
  workflow: join(folder, NAMES.workflow),
  ignored: join(folder, NAMES.ignored),
});

/** InputError with every file that is there already, or could not be written. A list of ignored files may be there. */
export function checkRepository({ ignored: _, ...files }: Repository): void {
  const taken = Object.values(files).filter(isTaken);
  if (taken.length > 0) throw new InputError(taken.map((file) => fileProblem(file, TAKEN)));
  for (const file of Object.values(files)) checkOutput(dirname(file), { names: [basename(file)] });
}

const TAKEN = "is there already, and nothing is overwritten; choose another folder";

/** Writes all of it. InputError where a file has come into being meanwhile; what was written goes again. */
export function writeRepository(files: Repository, { text }: NewModel): void {
  const model = `../models/${basename(files.model)}`;
  const contents: readonly (readonly [file: string, content: string])[] = [
    [files.model, text],
    [files.firstTune, ofModel(readText(shippedSweep("first-tune.yaml"), "a sweep"), model)],
    [files.night, nightSweep(model)],
    [files.workflow, WORKFLOW],
  ];
  for (const [k, [file, content]] of contents.entries()) {
    if (writeNew(file, content)) continue;
    for (const [written] of contents.slice(0, k)) removeIfThere(written);
    throw new InputError([fileProblem(file, TAKEN)]);
  }
  writeNew(files.ignored, IGNORED); // one that is there knows better
}

/** A shipped sweep of another model; its line for an editor points to where nothing is. */
const ofModel = (sweep: string, model: string): string =>
  sweep.replace(/^# yaml-language-server:.*\n/, "").replace(/^model: .*$/m, `model: ${model}`);

const IGNORED = "node_modules/\nreports/*\n!reports/baselines/\n";

const nightSweep = (
  model: string,
): string => `# What a night asks: does the model still have the map that was reviewed? The baseline (below reports/baselines) is that
# map; gainscape baseline sweeps/night.yaml writes it anew once a change is meant.
format: gainscape.sweep/1
name: night
title: Has the model moved?
model: ${model}
seed: 1

# Coarse: a night compares boundaries, which are searched for between the lines.
grid: auto 12 x 10

scripts:
  - {use: nudge, throttle: [hover, 70 %]}
  - {use: roll-stop, throttle: [hover, 70 %], rates: [500 deg/s]}
  - {use: flip-stop, throttle: [hover, 70 %], rates: [500 deg/s]}

conditions:
  - {name: fresh pack, charge: 100 %}
  - {name: tired pack, charge: 25 %}

limits:
  overshoot: 15 %
  settling: 250 ms

# Add what you fly under "pinned", and the gate watches that tune:
# pinned:
#   roll: {p: 9 %/(100 deg/s), d: 1 %/(1000 deg/s^2)}
#   pitch: {p: 10 %/(100 deg/s), d: 1 %/(1000 deg/s^2)}

gates:
  boundary_fall: 5 %

# The models that are held against the baseline: this one, as it is tonight, and any new version.
baseline:
  candidates: [${model}]
`;

const WORKFLOW = `# Holds every model against its baseline: each night, and for each change that is proposed.
# Exit codes of the gate: 0 no regression, 1 regression, 2 bad input or not comparable, 3 incomplete.
name: night
on:
  schedule:
    - cron: "17 2 * * *"
  pull_request:
  workflow_dispatch:

permissions:
  contents: read

jobs:
  gate:
    runs-on: ubuntu-latest
    timeout-minutes: 30
    steps:
      - uses: actions/checkout@v4
      - uses: actions/setup-node@v4
        with:
          node-version: 20
          cache: npm
      - run: npm ci
      - uses: actions/cache@v4
        with:
          path: .trials
          key: trials-\${{ github.run_id }}
          restore-keys: trials-
      - name: Hold every model against its baseline
        run: npx gainscape gate sweeps/night.yaml --cache .trials
      - name: Summary on the job's page
        if: \${{ always() }}
        run: test ! -f reports/gate/summary.md || cat reports/gate/summary.md >> "$GITHUB_STEP_SUMMARY"
      # reports/gate/junit.xml is what steps for test results read, reports/gate/gate.sarif what marks lines of a change.
      - name: Keep the reports
        if: \${{ always() }}
        uses: actions/upload-artifact@v4
        with:
          name: gate
          path: reports/gate
`;
