/** The ledger of hours: figures worked out by hand, and sums of generated service against plain addition. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type EngineHours, engineHours, hoursOn, showAmount } from "../../server/totals/engine-hours.ts";
import { day, shopOf } from "../support/shop.ts";

function ledgerOf(text: string, engine = "C9-0412"): EngineHours {
  return shopOf({ "shop.gudgeon": text }, { rules: [] }).checker.ask.total(engineHours, engine);
}

/** A run at 1000 rpm from the first row to the last, so that all of it counts. */
const run = (name: string, date: string, from: string, to: string): string =>
  `run ${name} ${date} job J1 by ATH second RPE\n  log time crank.speed/rpm\n  ${from} 1000\n  ${to} 1000\n`;

const ENGINE = "engine C9-0412 Curlew-9\n  hours tsn 1184.3 h tso 402.1 h on 2026-02-16\n";
const JOB = "job J1 engine C9-0412\n";

describe("running on the stand", () => {
  test("three runs of twenty minutes are an hour exactly", () => {
    const runs = ["1", "2", "3"].map((n) => run(`R${n}`, `2026-04-1${n}`, "10:00", "10:20")).join("");
    const ledger = ledgerOf(ENGINE + JOB + runs);
    expect(hoursOn(ledger, "tsn", day("2026-04-13"))).toBe(1185.3 * 3600);
    expect(hoursOn(ledger, "tso", day("2026-04-13"))).toBe(403.1 * 3600);
    expect(hoursOn(ledger, "tsn", day("2026-04-11"))).toBe(1184.3 * 3600 + 1200);
  });

  test("does not count where the shop excludes it", () => {
    const ledger = ledgerOf(
      `shop "S"\n  stand-time excluded\n${ENGINE}${JOB}${run("R1", "2026-04-11", "10:00", "11:00")}`,
    );
    expect(hoursOn(ledger, "tsn", day("2026-04-30"))).toBe(1184.3 * 3600);
    expect(ledger.entries.map((entry) => [entry.kind, entry.added_s])).toEqual([
      ["stated", 0],
      ["run", 0],
    ]);
  });

  test("a start between two rows counts from where the speed passes 250 rpm", () => {
    const ledger = ledgerOf(
      `${ENGINE}${JOB}run R1 2026-04-11 job J1 by ATH second RPE\n  log time crank.speed/rpm\n  10:00 0\n  10:01 1000\n  10:11 1000\n  10:12 0\n`,
    );
    // 0 to 1000 rpm in 60 s: 250 rpm is passed after 15 s, so 45 s count, and the same at the end.
    expect(ledger.entries[1]?.added_s).toBe(45 + 600 + 45);
  });

  test("a run whose log shows no speed is named, not guessed", () => {
    const ledger = ledgerOf(
      `${ENGINE}${JOB}run R1 2026-04-11 job J1 by ATH second RPE\n  log time oil.temp/C\n  10:00 20\n  10:30 60\n`,
    );
    expect(ledger.unknownRuns).toEqual(["J1/R1"]);
    expect(hoursOn(ledger, "tsn", day("2026-04-30"))).toBe(1184.3 * 3600);
  });
});

describe("statements", () => {
  test("a figure of the engine's own lines holds for the end of its day, one in an entry from there on", () => {
    const runs = run("R1", "2026-04-11", "10:00", "11:00");
    expect(
      hoursOn(ledgerOf(`${ENGINE}  hours tsn 1186.0 h on 2026-04-11\n${JOB}${runs}`), "tsn", day("2026-04-11")),
    ).toBe(1186 * 3600);
    const before = `entry E1 2026-04-11 stand job J1\n  hours tsn 1184.3 h\n`;
    expect(hoursOn(ledgerOf(`${ENGINE}${JOB}${before}${runs}`), "tsn", day("2026-04-11"))).toBe(1185.3 * 3600);
  });

  test("the order of the lines does not matter, that of the days does", () => {
    const lines = [
      "hours tsn 10.0 h on 2020-01-01",
      "hours tsn 20.0 h on 2021-01-01",
      "hours tsn 30.0 h on 2022-01-01",
    ];
    for (const order of [
      [0, 1, 2],
      [2, 0, 1],
      [1, 2, 0],
    ]) {
      const ledger = ledgerOf(`engine C9-0412 Curlew-9\n${order.map((n) => `  ${lines[n]}\n`).join("")}`);
      expect(hoursOn(ledger, "tsn", day("2021-06-01"))).toBe(20 * 3600);
      expect(hoursOn(ledger, "tsn", day("2019-06-01"))).toBeUndefined();
    }
  });

  test("only an overhaul starts time since overhaul again", () => {
    const text = `${ENGINE}  used 10.0 h from 2026-03-01 until 2026-03-31\n  overhauled on 2026-04-01 "This shop"\n  used 2.0 h from 2026-05-01 until 2026-05-31\n`;
    const ledger = ledgerOf(text);
    expect(hoursOn(ledger, "tso", day("2026-03-31"))).toBe(412.1 * 3600);
    expect(hoursOn(ledger, "tso", day("2026-05-31"))).toBe(2 * 3600);
    expect(hoursOn(ledger, "tsn", day("2026-05-31"))).toBe(1196.3 * 3600);
    expect(ledger.overhauls.map((one) => one.date)).toEqual([day("2026-04-01")]);
  });

  test("cycles are stated and never worked out from running time", () => {
    const ledger = ledgerOf(
      `engine C9-0412 Curlew-9\n  hours tsn 10.0 h cycles 200 cycles on 2026-01-01\n  used 5.0 h from 2026-02-01 until 2026-02-28\n`,
    );
    expect(hoursOn(ledger, "cycles", day("2026-03-01"))).toBe(200);
    expect(hoursOn(ledger, "tsn", day("2026-03-01"))).toBe(15 * 3600);
  });

  test("amounts are shown in tenths, in hundredths where a tenth would hide something", () => {
    expect(showAmount(1184.3 * 3600, "time")).toBe("1184.3 h");
    expect(showAmount(1184.25 * 3600, "time")).toBe("1184.25 h");
    expect(showAmount(402, "count:cycles")).toBe("402 cycles");
  });
});

test("service of any many stretches adds up to the plain sum of tenths", () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.integer({ min: 1, max: 28 }), fc.integer({ min: 0, max: 400 })), {
        minLength: 1,
        maxLength: 20,
      }),
      (stretches) => {
        const lines = stretches.map(
          ([dayOfMonth, tenths]) =>
            `  used ${Math.floor(tenths / 10)}.${tenths % 10} h from 2026-03-01 until 2026-03-${String(dayOfMonth).padStart(2, "0")}\n`,
        );
        const ledger = ledgerOf(`engine C9-0412 Curlew-9\n  hours tsn 100.0 h on 2026-02-01\n${lines.join("")}`);
        const tenths = stretches.reduce((sum, [, one]) => sum + one, 1000);
        expect(hoursOn(ledger, "tsn", day("2026-04-01"))).toBe(tenths * 360);
      },
    ),
    { numRuns: 60 },
  );
});
