/** Which piston goes to which bore: from the records of a job, with the lines to enter. */
import { describe, expect, test } from "vitest";
import { matchable, matching } from "../../server/totals/matching.ts";
import { shopOf } from "../support/shop.ts";

const shop = (bores: readonly number[], skirts: readonly number[], more = "") =>
  shopOf({
    "job.gudgeon": `limits Curlew-9 revision C from 2025-11-01
  limit piston.fit[1..9] = greatest cylinder.bore - greatest piston.skirt new 0.105..0.142 mm wear max 0.230 mm
  limit cylinder.bore[1..9] new 98.000..98.022 mm
engine C9-0412 Curlew-9
job J1 engine C9-0412 limits C
entry E1 2026-02-19 inspect job J1
${bores.map((bore, i) => `  measure cylinder.bore[${i + 1}] ${bore.toFixed(3)} mm\n`).join("")}${skirts.map((skirt, i) => `  measure piston.skirt[${i + 1}] ${skirt.toFixed(3)} mm\n`).join("")}${more}`,
  }).checker.ask;

function matched(ask: ReturnType<typeof shop>) {
  const [line] = matchable(ask, "J1");
  if (!line) throw new Error("nothing to match for");
  return matching(ask, "J1", line);
}

describe("pistons to bores", () => {
  test("the greatest piston goes to the greatest bore, and the moves say so", () => {
    // As they stand: 98.020 - 97.880 = 0.140 and 98.000 - 97.895 = 0.105, spread 0.035. Changed over: 0.125 and 0.120, spread 0.005.
    const found = matched(shop([98.02, 98.0], [97.88, 97.895]));
    expect(found.assembly).toMatchObject({ ok: true, spread_mm: 0.005, least_mm: 0.12, greatest_mm: 0.125 });
    expect(found.moves).toEqual(["move piston[2] to piston[1]", "move piston[1] to piston[2]"]);
  });

  test("the moves, entered, give what was promised, and then every part stays", () => {
    const ask = shop(
      [98.02, 98.0],
      [97.88, 97.895],
      "entry E2 2026-02-20 build job J1\n  move piston[2] to piston[1]\n  move piston[1] to piston[2]\n",
    );
    const found = matched(ask);
    expect(found.assembly).toMatchObject({ ok: true, spread_mm: 0.005 });
    expect(found.moves).toEqual([]);
  });

  test("a bore that no piston fits is named, with the piston that comes nearest", () => {
    const found = matched(shop([98.01, 98.05], [97.89, 97.89]));
    expect(found.assembly).toMatchObject({ ok: false, blockedPlaces: ["cylinder[2]"] });
    expect(found.moves).toEqual([]);
  });

  test("without readings it says which are missing", () => {
    expect(matched(shop([], [97.89])).assembly).toMatchObject({
      ok: false,
      refused: "No reading of cylinder.bore stands in this job.",
    });
  });
});
