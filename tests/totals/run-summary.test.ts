/** Figures of a run: worked out by hand, and properties that hold for any log. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { WorkBlock } from "../../server/facts/types.ts";
import { runSummary, summariseRun } from "../../server/totals/run-summary.ts";
import { tableOf, turnings } from "../../server/totals/run-table.ts";
import { shopOf } from "../support/shop.ts";

const HEAD = "job J1 engine C9-0412\nrun R1 2026-04-11 job J1 by ATH second RPE\n";

function shop(lines: string) {
  return shopOf({ "shop.gudgeon": HEAD + lines }, { rules: [] }).checker.ask;
}

function runOf(lines: string): WorkBlock {
  const block = shop(lines).workBlock("J1/R1");
  if (!block) throw new Error("the run was not read");
  return block;
}

describe("a run of twelve minutes", () => {
  const LINES = `  log time crank.speed/rpm cht[1..2]/C
  10:00 0    20  20
  10:01 1000 60  50
  10:11 1000 180 160
  10:12 0    170 165
  fuel 1 gal
  oil added 0.5 L
  oil drained 500 mL
`;
  const summary = summariseRun(runOf(LINES));

  test("length, running time and starts", () => {
    expect(summary.logged_s).toBe(720);
    expect(summary.startsAt).toBe(36_000);
    expect(summary.starts).toBe(1);
    // 250 rpm is passed 15 s after 10:00 and 45 s after 10:11.
    expect(summary.running_s).toBeCloseTo(690, 9);
  });

  test("bands of speed", () => {
    // From 0 to 1000 rpm in a minute: half of it below 500 rpm; the ten minutes at 1000 rpm belong to the band that begins there.
    expect(summary.bands.map((band) => [band.from_rpm, band.until_rpm, Math.round(band.time_s)])).toEqual([
      [0, 500, 60],
      [500, 1000, 60],
      [1000, 1500, 600],
    ]);
  });

  test("least, greatest and mean of each channel", () => {
    const speed = summary.channels.find((channel) => channel.place === "crank.speed");
    // (500 x 60 + 1000 x 600 + 500 x 60) / 720
    expect(speed?.mean).toBeCloseTo(916.6667, 3);
    const head = summary.channels.find((channel) => channel.place === "cht[1]");
    expect(head).toMatchObject({ unit: "C", least: 20, leastAt_s: 0, greatest: 180, greatestAt_s: 660, samples: 4 });
  });

  test("volumes in litres", () => {
    // 1 US gallon = 231 in3 = 3.785411784 L exactly. Source: NIST Handbook 44, appendix C.
    expect(summary.fuel_L).toBeCloseTo(3.785411784, 9);
    expect(summary.oilAdded_L).toBe(0.5);
    expect(summary.oilDrained_L).toBeCloseTo(0.5, 12);
  });
});

test("what is not known is not a figure", () => {
  const summary = summariseRun(runOf("  log time oil.temp/C\n  10:00 20\n  10:01 ?\n"));
  expect(summary.running_s).toBeUndefined();
  expect(summary.fuel_L).toBeUndefined();
  expect(summary.channels).toEqual([
    { place: "oil.temp", unit: "C", least: 20, greatest: 20, leastAt_s: 0, greatestAt_s: 0, mean: 20, samples: 1 },
  ]);
  // Oil by weight cannot be turned into litres without its density.
  expect(summariseRun(runOf("  oil added 400 g\n")).oilAdded_L).toBeUndefined();
});

test("the summary of a run that follows a schedule says how far the job has come", () => {
  const ask = shopOf(
    {
      "shop.gudgeon": `run-in Curlew-9
  step 1 for 10 min at crank.speed 700..900 rpm
engine C9-0412 Curlew-9
job J1 engine C9-0412 run-in Curlew-9
run R1 2026-04-11 job J1 by ATH second RPE
  log time crank.speed/rpm
  10:00 800
  10:10 800
`,
    },
    { rules: [] },
  ).checker.ask;
  const state = ask.total(runSummary, "J1/R1")?.runIn;
  expect(state).toMatchObject({ schedule: "Curlew-9", complete: true, lastRun: "J1/R1", unseen: false });
  expect(state?.steps.map((step) => [step.name, step.verdict, step.counted_s])).toEqual([["1", "done", 600]]);
});

test("rows that run back are left out, and nothing else", () => {
  const log = runOf("  log time crank.speed/rpm\n  10:00 0\n  10:02 800\n  10:01 900\n  10:03 1000\n").logs[0];
  if (!log) throw new Error("no log");
  const table = tableOf(log);
  expect([...table.time_s]).toEqual([0, 120, 180]);
  expect([...table.columns[0]]).toEqual([0, 800, 1000]);
  expect([...table.sources]).toEqual([0, 1, 3]);
  expect(turnings(table, 0)).toEqual([{ firstRow: 1, endRow: 3, seenToStart: true }]);
});

test("the bands of any log add up to its length, and the mean lies between least and greatest", () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 3000 }), { minLength: 2, maxLength: 40 }), (speeds) => {
      const rows = speeds.map((rpm, minute) => `  ${minute * 30} ${rpm}\n`).join("");
      const summary = summariseRun(runOf(`  log elapsed/s crank.speed/rpm\n${rows}`));
      const banded = summary.bands.reduce((sum, band) => sum + band.time_s, 0);
      expect(banded).toBeCloseTo((speeds.length - 1) * 30, 6);
      const [channel] = summary.channels;
      expect(channel?.least).toBe(Math.min(...speeds));
      expect(channel?.greatest).toBe(Math.max(...speeds));
      expect(channel?.mean).toBeGreaterThanOrEqual(Math.min(...speeds) - 1e-9);
      expect(channel?.mean).toBeLessThanOrEqual(Math.max(...speeds) + 1e-9);
      expect(summary.running_s).toBeLessThanOrEqual(summary.logged_s + 1e-9);
    }),
    { numRuns: 100 },
  );
});
