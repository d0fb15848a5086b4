// The rooms of src/ and what each may import: types count like values, unless only types are allowed. DEVELOPERS.md prints
// this table: run `npm run docs` after changing it.

export interface Room {
  /** What lives there, as DEVELOPERS.md prints it. */
  readonly holds: string;
  readonly imports: readonly string[];
  /** Rooms of which only types may be imported. */
  readonly types?: readonly string[];
  readonly packages?: readonly string[];
  /** Said when the table is broken: where the code wants to go. */
  readonly instead: string;
}

const EVERY_ROOM = [
  "base",
  "airframe",
  "estimate",
  "sweep",
  "plan",
  "kernel",
  "response",
  "run",
  "theory",
  "sheet",
  "map",
  "causes",
  "confidence",
  "strips",
  "flight",
  "fit",
  "why",
  "compare",
  "trend",
  "words",
  "charts",
  "page-data",
  "report",
  "files",
];

export const ROOMS: Readonly<Record<string, Room>> = {
  base: {
    holds: "units, measures, gates, problems, parts of schemas, canonical JSON, random numbers, sin, exp",
    imports: [],
    packages: ["zod", "node:crypto", "node:module"],
    instead:
      "base knows nothing of the rest: move what it needs down into base, or this code up into the room that needs it",
  },
  airframe: {
    holds: "schema of a model; parts to mass and inertia; air, rotor, motor, pack, mixer, filters, trim",
    imports: ["base"],
    packages: ["zod", "ml-matrix"],
    instead: "an airframe is physics alone: what simulates it belongs to plan or kernel, what reads its file to files",
  },
  estimate: {
    holds: "answers and bench tables to a model's text: estimates with spreads, the published propellers they rest on",
    imports: ["base", "airframe"],
    packages: ["zod", "ml-matrix"],
    instead:
      "an estimate is a number with its spread and source: asking belongs to cli, reading files and judging the model to flow",
  },
  sweep: {
    holds: "schemas of sweep and script: grid, levels, conditions, limits, gates",
    imports: ["base"],
    packages: ["zod", "node:path"],
    instead:
      "a sweep is the question alone: what joins it to an airframe belongs to plan, what reads its file to files",
  },
  plan: {
    holds:
      "sweep and airframe to a frozen plan; gains that hold the other axis, lines that fit, physics steps, tails long enough",
    imports: ["base", "airframe", "sweep", "theory"], // theory for the gains that hold and the size of the time step
    packages: ["zod"],
    instead:
      "a plan is complete before anything is simulated: put the number into the plan and let run or map read it there",
  },
  kernel: {
    holds: "the loop; what the air, the sensor and the commands do period by period",
    imports: ["base", "airframe", "response"], // response for the passes it carries out in its lanes
    types: ["plan", "sweep"],
    packages: ["node:fs"], // for load-vector.ts alone, which reads the code in its folder
    instead: "the kernel works on numbers: resolve this in plan, or lay it out in memory.ts",
  },
  response: {
    holds: "one trace to measures and outcome",
    imports: ["base"],
    instead: "a trace is read without knowing what made it: hand it over in Question or Recording",
  },
  run: {
    holds: "tasks, serial runner, pool, worker, cached trials",
    imports: ["base", "airframe", "plan", "kernel", "response"], // airframe for the work a trial is
    packages: ["tinypool", "node:url", "node:v8", "node:worker_threads"],
    instead: "running knows tasks and results: what they mean belongs to map, where they come from to plan",
  },
  theory: {
    holds: "the linearised loop: ultimate gain, margins, poles, bandwidth",
    imports: ["base", "airframe"],
    packages: ["ml-matrix", "node:fs"], // node:fs for load-lanes.ts alone, which reads the code in its folder
    instead:
      "theory linearises an airframe: hand gains and trim over as arguments; what compares it with trials belongs to map",
  },
  sheet: {
    holds: "what follows from a model's numbers before anything is simulated, and doubts about them",
    imports: ["base", "airframe", "theory"],
    instead: "a sheet is computed from an airframe alone: what a sweep asks belongs to plan, what trials say to map",
  },
  map: {
    holds: "trials to a map: worst case, boundary, verdict, safe region, tunes; `map.json`",
    imports: ["base", "airframe", "plan", "theory", "sheet"], // the sheet of the model that it carries
    types: ["sweep"],
    packages: ["zod"],
    instead:
      "a map asks for trials through Ask and never runs them; what it shows goes into map.json, not into a chart",
  },
  causes: {
    holds: "why nothing is safe: changes of the model or the sweep with which a safe tune is found",
    imports: ["base", "airframe", "plan", "theory", "sheet", "map"],
    types: ["sweep"],
    instead: "a cause is a change that mends: how its trials are run belongs to flow, what a map says of it to map",
  },
  confidence: {
    holds: "draws of a model judged: counts per point, the boundary's band, the start, what knowing a number is worth",
    imports: ["base", "airframe", "plan", "theory", "map"],
    types: ["sweep"],
    instead: "confidence judges draws by theory and trials that map asks for: what one plan's map is belongs in map",
  },
  strips: {
    holds: "P of yaw and I judged along a line of gains at the starting tune",
    imports: ["base", "plan", "theory", "map"],
    types: ["sweep"],
    instead:
      "a strip judges one gain by trials that it asks for: how they are run belongs to flow, what a map holds of it to map",
  },
  flight: {
    holds: "flight files and logs of the real craft: their schema, their columns in SI, what is odd about them",
    imports: ["base", "airframe"],
    packages: ["zod", "ml-matrix"],
    instead:
      "a flight is what was measured and seen: reading its file belongs to files, what it says of a model to fit",
  },
  fit: {
    holds:
      "what flights say about a model: measured responses, the likeliest numbers and their spreads, units of gains",
    imports: ["base", "airframe", "theory", "flight"],
    packages: ["ml-matrix", "ml-levenberg-marquardt", "fft.js", "zod"],
    instead:
      "a fit is arithmetic on logs and theory: files belong to flow, simulated draws to confidence, pages to report",
  },
  why: {
    holds:
      "how much of what moved between two versions comes from each changed number, and where a margin is least, by theory",
    imports: ["base", "airframe", "plan", "theory", "map"],
    types: ["sweep"],
    instead:
      "a share is theory's of two models and a question: maps and their trials belong to compare, words to words",
  },
  compare: {
    holds: "two maps to drift and decision, and why; baselines",
    imports: ["base", "airframe", "sweep", "map", "why"], // the schemas: their keys and units
    packages: ["zod"],
    instead: "two maps are compared from map.json alone: put what is missing into its format",
  },
  trend: {
    holds: "records of finished maps over versions and dates: steps, slow creep, and what did it",
    imports: ["base", "map", "compare"],
    packages: ["zod"],
    instead:
      "a trend follows from records alone: what is missing goes into the record, files into flow, words into words",
  },
  words: {
    holds: "numbers, limits, verdicts and steps as a reader reads them",
    imports: ["base", "map", "compare"],
    types: ["sheet", "fit", "trend"],
    instead: "words say what a map or comparison holds: compute it in map or compare, draw it in charts",
  },
  charts: {
    holds: "drawing: contours, lines, marks, labels and their places, Vega to SVG",
    imports: ["base", "map", "compare", "words"],
    types: ["fit", "trend"],
    packages: ["vega", "vega-lite"],
    instead: "a chart draws what a map holds: compute it in map, and put the figure into a page in report",
  },
  "page-data": {
    holds: "what the page's script is given: the map's points packed small, what it takes to simulate them",
    imports: ["base", "map", "words", "charts"],
    instead: "data alone: how it is shown belongs to page, what it is made of to map",
  },
  report: {
    holds: "strings only: pages, card, CSV, summaries",
    imports: ["base", "map", "compare", "words", "charts", "page-data"],
    types: ["sheet", "fit", "flight", "trend"],
    packages: ["hono/html", "csv-stringify/sync", "node:crypto", "sarif"], // sarif: types alone
    instead:
      "a report reads map.json alone and returns strings: put what is missing into map/format.ts, leave writing to files",
  },
  page: {
    holds: "the report's script, for a browser: maps that answer, trials simulated and shown",
    imports: ["base", "kernel", "response", "run", "map", "words", "charts", "page-data"],
    types: ["airframe", "plan", "sweep"],
    instead:
      "the page's script simulates and shows in a browser: what it is given goes into page-data, drawing into charts",
  },
  files: {
    holds: "YAML, JSON and CSV in, files out, locks, cache files",
    imports: ["base"],
    packages: [
      "yaml",
      "csv-parse",
      "csv-parse/sync",
      "node:fs",
      "node:os",
      "node:path",
      "node:crypto",
      "node:stream",
      "node:stream/promises",
      "node:tty",
    ],
    instead: "files reads and writes and does not know what a file means: that is for airframe, sweep or flow",
  },
  flow: {
    holds: "the way through the rooms as functions",
    imports: EVERY_ROOM,
    packages: ["zod", "node:path"],
    instead:
      "flow is the library's way through the rooms: terminal, options and exit codes belong to cli, the disk to files",
  },
  cli: {
    holds: "commands, options, progress, signals, exit codes",
    imports: [...EVERY_ROOM, "flow"],
    packages: ["commander", "@clack/prompts", "node:os", "node:path", "node:tty"],
    instead: "a command reads as the data flow: put the work into a room and the disk into files",
  },
  translator: {
    holds: "build time: `kernel/loop.ts`, `response/passes.ts` and `theory/lane-pass.ts` to WebAssembly",
    imports: ["base"],
    packages: ["typescript", "node:fs", "node:path"],
    instead: "the translator runs at build time on the source as text: it shares only base/vector-layout.ts with it",
  },
  // index.ts
  "": {
    holds: "the library's face: re-exports only",
    imports: [...EVERY_ROOM, "flow"],
    instead: "the library's face only names what the rooms export",
  },
};
