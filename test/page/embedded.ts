// The script of a page in a world that holds nothing but its data: it offers its trials before it looks for the rest.
import { createContext, runInContext } from "node:vm";
import { expect } from "vitest";
import type { ConsoleApi } from "../../src/page/trial/trial.js";

export function embedded(page: string): ConsoleApi {
  const [, data = ""] = /<script type="application\/json" id="map-data">(.*?)<\/script>/s.exec(page) ?? [];
  const [, script = ""] = /<\/script>\s*<script>(.*?)<\/script>/s.exec(page) ?? [];
  const document = { getElementById: (id: string) => (id === "map-data" ? { textContent: data } : null) };
  const world = createContext({ document, TextEncoder });
  expect(() => runInContext(script, world)).toThrow(); // it finds no page to wake
  return (world as unknown as { gainscape: ConsoleApi }).gainscape;
}
