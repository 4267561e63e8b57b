/** Who may do what on which day, and what an acceptance is about. */
import { describe, expect, test } from "vitest";
import type { FindingView } from "../../server/checking/ask.ts";
import { type PlaceSet, parsePlace } from "../../server/facts/place.ts";
import { acceptanceHolds, holdsRole, mayAct, placeWithin, refersTo } from "../../server/totals/authority.ts";
import { day, shopOf } from "../support/shop.ts";

const TEXT = `person RPE "Ruth Pell"
  role inspector from 2024-01-08 until 2026-01-08 for Curlew-9
person CNO "Colin Noakes"
  role certifier from 2012-04-01
engine-type Curlew-9
engine C9-0412 Curlew-9
job J26-014 engine C9-0412
`;
const ask = (text = TEXT) => shopOf({ "shop.gudgeon": text }).checker.ask;

describe("roles", () => {
  const person = ask().person("RPE");
  test.each([
    ["2024-01-07", "Curlew-9", false],
    ["2024-01-08", "Curlew-9", true],
    ["2026-01-08", "Curlew-9", true],
    ["2026-01-09", "Curlew-9", false],
    ["2025-01-01", "Tern-4", false],
    ["2025-01-01", "", true],
  ])("on %s for %s: %s", (on, type, held) => {
    expect(person && holdsRole(person, "inspector", day(on), type)).toBe(held);
  });

  test("without authority lines the usual roles act; a line takes their place", () => {
    const on = day("2025-01-01");
    const acts = ["accept", "concession", "defer", "release", "refuse"] as const;
    expect(acts.filter((act) => mayAct(ask(), "RPE", act, on))).toEqual(["accept", "refuse"]);
    expect(acts.filter((act) => mayAct(ask(), "CNO", act, on))).toEqual(acts);
    const other = ask(`shop "S"\n  authority defer inspector\n${TEXT}`);
    expect([mayAct(other, "RPE", "defer", on), mayAct(other, "CNO", "defer", on)]).toEqual([true, false]);
    expect(mayAct(ask(), "XYZ", "accept", on)).toBe(false);
  });
});

test("a reference means a block of its own job, of another by its full name, or one outside jobs by its name", () => {
  expect(refersTo("J26-014", "E3", "J26-014/E3")).toBe(true);
  expect(refersTo("J26-015", "E3", "J26-014/E3")).toBe(false);
  expect(refersTo("J26-015", "J26-014/E3", "J26-014/E3")).toBe(true);
  expect(refersTo("J26-014", "C9-0412", "engine/C9-0412")).toBe(true);
  expect(refersTo("J26-014", "E3", "J26-015/E3")).toBe(false);
  expect(refersTo("J26-014", "", "J26-014/")).toBe(false);
});

test("a place is within another when all of it is", () => {
  const place = (text: string) => parsePlace(text) as PlaceSet;
  expect(placeWithin("cylinder.bore[3/mid]", place("cylinder.bore[3]"))).toBe(true);
  expect(placeWithin("cylinder.bore[3/mid]", place("cylinder[3]"))).toBe(true);
  expect(placeWithin("cylinder.bore[3]", place("cylinder.bore[3/mid]"))).toBe(false);
  expect(placeWithin("cylinder.bore[1..4]", place("cylinder.bore[1..3]"))).toBe(false);
  expect(placeWithin("cylinder.bores[3]", place("cylinder.bore[3]"))).toBe(false);
  expect(placeWithin("", place("cylinder.bore[3]"))).toBe(false);
});

describe("an acceptance", () => {
  const finding: FindingView = {
    code: "limit/not-proven",
    severity: "warning",
    ref: "J26-014/E3",
    job: "J26-014",
    place: "cylinder.bore[3]",
    message: "",
    accepted: false,
  };
  const holds = (line: string, changed: Partial<FindingView> = {}) => {
    const asked = ask(`${TEXT}entry E9 2026-04-12 review job J26-014\n  accept ${line}\n`);
    const placed = asked.facts("J26-014", "accepts")[0];
    if (!placed) throw new Error(`not read: ${line}`);
    return acceptanceHolds(placed, { ...finding, ...changed }, asked);
  };

  test("holds for its finding", () => {
    expect(holds('limit/not-proven E3 cylinder.bore[3] by CNO 2026-04-12 "Measured again"')).toBe(true);
    expect(holds('limit/not-proven E3 by CNO 2026-04-12 "Measured again"')).toBe(true);
  });
  test("not for another code, block or place", () => {
    expect(holds('limit/too-coarse E3 by CNO 2026-04-12 "Measured again"')).toBe(false);
    expect(holds('limit/not-proven E4 by CNO 2026-04-12 "Measured again"')).toBe(false);
    expect(holds('limit/not-proven E3 cylinder.bore[4] by CNO 2026-04-12 "Measured again"')).toBe(false);
  });
  test("not without reason, not by someone whose role has run out", () => {
    expect(holds('limit/not-proven E3 by CNO 2026-04-12 " "')).toBe(false);
    expect(holds('limit/not-proven E3 by RPE 2026-04-12 "Measured again"')).toBe(false);
    expect(holds('limit/not-proven E3 by RPE 2026-01-08 "Measured again"')).toBe(true);
  });
  test("not for an error of a guarded family; for an error of another", () => {
    expect(holds('limit/not-proven E3 by CNO 2026-04-12 "Measured again"', { severity: "error" })).toBe(false);
    expect(
      holds('part/shelf-life-expired E3 by CNO 2026-04-12 "Letter 22"', {
        code: "part/shelf-life-expired",
        severity: "error",
      }),
    ).toBe(true);
  });
});
