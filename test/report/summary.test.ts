import { describe, expect, it } from "vitest";
import { renderSummary } from "../../src/report/index.js";
import { fixture, withoutStart, withScale } from "./fixture.js";

const plain = (text: string) => text.replaceAll("\u00a0", " ");
const map = fixture();

describe("the summary for a terminal", () => {
  const text = plain(renderSummary(map));

  it("says where to start, with units", () => {
    expect(text).toContain("Roll: start at P 20.6 % per 100 °/s, D 2.94 % per 1000 °/s², I 42.5 % per 100°.");
    expect(text).toContain("Pitch: start at P 23.4 % per 100 °/s, D 3.13 % per 1000 °/s², I 42.5 % per 100°.");
  });

  it("says what limits, how far each gain may move, and what to avoid with who decided", () => {
    expect(text).toContain("What limits it: gain margin under 6 dB, with more D: at D 3.77 (× 1.28).");
    expect(text).toContain("P may lie anywhere in 14.3 to 26.7, D in 1.12 to 3.77.");
    expect(text).toContain("does not die out (hard stop from a roll at 500 °/s, 80 % throttle, fresh pack).");
  });

  it("says the safe share of the swept points", () => {
    const safe = map.axes.roll.safe.flat().filter(Boolean).length;
    expect(text).toContain(`${Number(((100 * safe) / 1024).toPrecision(3))} % of the swept points are safe.`);
  });

  it("gives the reason plainly when there is no starting tune", () => {
    const none = plain(renderSummary(withoutStart(map, "roll", "No point of the grid is clean.")));
    expect(none).toContain("Roll: no starting tune. No point of the grid is clean.");
    expect(none).toContain("Pitch: start at P 23.4");
    expect(none).toMatch(/^.*\nDO NOT FLY: roll has no tune to climb to\. A craft flies on all its axes at once/);
    expect(plain(renderSummary(map))).not.toContain("DO NOT FLY");
  });

  it("says the controller's own numbers first where the model says what they are worth", () => {
    const own = plain(renderSummary(withScale(map)));
    expect(own).toContain(
      "Roll: start at P 5150 (20.6 % per 100 °/s), D 5880 (2.94 % per 1000 °/s²), I 2125 (42.5 % per 100°).",
    );
    expect(own).toContain("P may lie anywhere in 3560 to 6670, D in 2240 to 7540.");
    expect(own).toContain("never copy them onto another");
    expect(plain(renderSummary(map))).toContain("These are not your controller’s numbers: do not type them in.");
  });

  it("lets no control character through to the terminal", () => {
    const hostile = { ...map, airframe: { ...map.airframe, name: "\u001b]0;x\u0007Sand\u202epiper\r\n" } };
    expect(renderSummary(hostile)).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e]/);
  });
});
