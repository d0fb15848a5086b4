import { describe, expect, it } from "vitest";
import { renderJunit } from "../../../src/report/index.js";
import { base, driftOf, unpinned, worse } from "./drifts.js";
import { type Element, parseXml } from "./xml.js";

// The shape CI servers read, after the schema commonly called junit-10.xsd (the Jenkins xUnit plugin's, itself after the
// output of Apache Ant's junit task). Status: from memory, the file was not at hand. Ant's own older schema also demands
// a timestamp, a host name and a time per case; those would differ from run to run, and servers do without.
interface Shape {
  readonly required: readonly string[];
  readonly optional: readonly string[];
  readonly children: readonly string[];
}
const OUTPUT = ["system-out", "system-err"];
const COUNTS = ["tests", "failures", "errors", "skipped"];
const SHAPES: Readonly<Record<string, Shape>> = {
  testsuites: { required: [], optional: ["name", "time", "tests", "failures", "errors"], children: ["testsuite"] },
  testsuite: {
    required: ["name", "tests", "failures", "errors"],
    optional: ["skipped", "time", "timestamp", "hostname", "id", "package", "file", "log", "url", "version", "group"],
    children: ["properties", "testcase", "testsuite", ...OUTPUT],
  },
  properties: { required: [], optional: [], children: ["property"] },
  property: { required: ["name", "value"], optional: [], children: [] },
  testcase: {
    required: ["name"],
    optional: ["classname", "time", "group"],
    children: ["skipped", "error", "failure", ...OUTPUT],
  },
  failure: { required: [], optional: ["type", "message"], children: [] },
  skipped: { required: [], optional: ["type", "message"], children: [] },
};

function faultsOf({ name, attributes, children }: Element): string[] {
  const shape = SHAPES[name];
  if (shape === undefined) return [`<${name}> is unknown`];
  const given = Object.keys(attributes);
  return [
    ...shape.required.filter((one) => !given.includes(one)).map((one) => `<${name}> lacks ${one}`),
    ...COUNTS.filter((one) => given.includes(one) && !/^\d+$/.test(attributes[one] ?? "")).map(
      (one) => `${name}.${one} is not a whole number`,
    ),
    ...given.filter((one) => ![...shape.required, ...shape.optional].includes(one)).map((one) => `${name}.${one}`),
    ...children.filter((child) => !shape.children.includes(child.name)).map((child) => `<${child.name}> in <${name}>`),
    ...children.flatMap(faultsOf),
  ];
}

const all = (element: Element, name: string): Element[] => [
  ...(element.name === name ? [element] : []),
  ...element.children.flatMap((child) => all(child, name)),
];

const drifts = [driftOf(base(), base()), driftOf(base(), worse()), driftOf(unpinned(), unpinned())];
const root = parseXml(renderJunit(drifts));

describe("the JUnit file", () => {
  it("has the shape of the schema", () => {
    expect(root.name).toBe("testsuites");
    expect(faultsOf(root)).toEqual([]);
  });

  it("holds its counts as whole numbers", () => {
    for (const wrong of ["", "1.5", "-1", "NaN", "ten"]) {
      const [suite] = all(root, "testsuite") as [Element];
      const spoilt = { ...suite, attributes: { ...suite.attributes, skipped: wrong } };
      expect(faultsOf(spoilt)).toEqual(["testsuite.skipped is not a whole number"]);
    }
  });

  it("has a suite per comparison and a case per gate and axis", () => {
    const suites = all(root, "testsuite");
    expect(suites).toHaveLength(3);
    for (const suite of suites) expect(all(suite, "testcase")).toHaveLength(10);
    const names = all(suites[1] as Element, "testcase").map(({ attributes }) => attributes.name);
    expect(new Set(names).size).toBe(10);
    expect(names).toContain("roll: Pinned tune stays safe");
  });

  it("counts what it holds", () => {
    for (const suite of [root, ...all(root, "testsuite")]) {
      expect(suite.attributes).toMatchObject({
        tests: String(all(suite, "testcase").length),
        failures: String(all(suite, "failure").length),
        errors: "0",
      });
      if (suite.name === "testsuite") expect(suite.attributes.skipped).toBe(String(all(suite, "skipped").length));
    }
  });

  it("fails where the judge did, with numbers, and says why a gate was skipped", () => {
    const [same, regression, bare] = all(root, "testsuite") as [Element, Element, Element];
    expect([all(same, "failure"), all(same, "skipped")]).toEqual([[], []]);
    const messages = all(regression, "failure").map(({ attributes }) => attributes.message ?? "");
    expect(messages.join("\n").replaceAll("\u00a0", " ")).toMatch(/falls 10 % at D .*; allowed: a fall up to 5 %/);
    expect(all(bare, "skipped").map(({ attributes }) => attributes.message)).toEqual([
      "no pinned tune",
      "no pinned tune",
    ]);
  });

  it("is the same bytes every time: it holds no clock", () => {
    expect(renderJunit(drifts)).toBe(renderJunit(structuredClone(drifts)));
    expect(renderJunit(drifts)).not.toMatch(/ (time|timestamp|hostname)=/);
  });

  it("takes any text from a file as text", () => {
    const name = "<b>&\"'\u0000\u001b[31m\ud800\ufffe]]>é𝛿";
    const read = parseXml(renderJunit([driftOf(base(), worse(name))]));
    expect(faultsOf(read)).toEqual([]);
    const [candidate] = all(read, "property").filter(({ attributes }) => attributes.name === "candidate");
    expect(candidate?.attributes.value).toContain("<b>&\"'");
    expect(candidate?.attributes.value).toContain("é𝛿");
  });
});

describe("the reader used here", () => {
  it.each(["<a>", "<a></b>", "<a b=1/>", '<a b="1" b="2"/>', "<a/><b/>", "<a>&x;</a>", '<a b="<"/>', "<a>\u0001</a>"])(
    "refuses %s",
    (text) => {
      expect(() => parseXml(`<?xml version="1.0" encoding="UTF-8"?>\n${text}`)).toThrow();
    },
  );
});
