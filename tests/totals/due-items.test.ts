/** What is due on an engine, beside what the suites of the due rules show. */
import { describe, expect, test } from "vitest";
import { type DueItem, dueItems, dueText, leftText, noticeOf } from "../../server/totals/due-items.ts";
import { shopOf } from "../support/shop.ts";

function itemsOf(text: string, asOf = "2026-05-01"): readonly DueItem[] {
  return shopOf({ "shop.gudgeon": text }, { rules: [], asOf }).checker.ask.total(dueItems, "C9-0412");
}

const short = (item: DueItem | undefined): string[] =>
  item ? [item.name, item.verdict, ...item.measures.map((one) => `${dueText(one)}, ${leftText(one)}`)] : [];

const engine = (...lines: string[]): string =>
  `engine C9-0412 Curlew-9\n${lines.map((line) => `  ${line}\n`).join("")}`;

describe("tasks", () => {
  test("hours at which it was done may be given by time since overhaul", () => {
    const [item] = itemsOf(
      `task oil-change Curlew-9 every 50 h\n${engine("hours tsn 1200.0 h tso 400.0 h on 2026-01-01", "done oil-change on 2026-01-01 at tso 390.0 h")}`,
    );
    expect(short(item)).toEqual(["oil-change", "ahead", "at 1240.0 h, 40.0 h"]);
  });

  test("in a job, the runs that stand before the entry count and those after it do not", () => {
    const run = (name: string, from: string, to: string) =>
      `run ${name} 2026-04-11 job J1 by ATH second RPE\n  log time crank.speed/rpm\n  ${from} 1000\n  ${to} 1000\n`;
    const [item] = itemsOf(
      `task oil-change Curlew-9 every 50 h\n${engine("hours tsn 1200.0 h on 2026-01-01")}job J1 engine C9-0412\n${run("R1", "10:00", "11:00")}entry E1 2026-04-11 after-run job J1\n  done oil-change\n${run("R2", "12:00", "14:00")}`,
    );
    expect(short(item)).toEqual(["oil-change", "ahead", "at 1251.0 h, 48.0 h"]);
  });

  test("cycles are counted by the counter that counts cycles", () => {
    const [item] = itemsOf(
      `task plug-change Curlew-9 every 100 cycles\n${engine("hours tsn 10.0 h cycles 500 cycles on 2026-01-01", "done plug-change on 2026-01-01", "hours cycles 620 cycles on 2026-04-01")}`,
    );
    expect(short(item)).toEqual(["plug-change", "overdue", "at 600 cycles, 20 cycles"]);
  });

  test("an engine whose hours nobody counts is not judged", () => {
    const [item] = itemsOf(`task oil-change Curlew-9 every 50 h\n${engine("done oil-change on 2026-01-01")}`);
    expect(item?.verdict).toBe("unknown");
    expect(item?.reason).toContain("hours");
  });

  test("what was done after the day asked about does not count yet", () => {
    const text = `task check-a Curlew-9 every 1 months\n${engine("hours tsn 1.0 h on 2026-01-01", "done check-a on 2026-01-01", "done check-a on 2026-03-15")}`;
    expect(short(itemsOf(text, "2026-03-01")[0])).toEqual(["check-a", "overdue", "on 2026-02-01, 28 days"]);
    expect(short(itemsOf(text, "2026-03-15")[0])).toEqual(["check-a", "ahead", "on 2026-04-15, 31 days"]);
  });
});

describe("lives, bulletins", () => {
  const TYPE = 'engine-type Curlew-9\n  life "CS-100" 2000 h or 12 years\n';

  test("a used part brings its hours along, and one that was taken off is not counted", () => {
    const items = itemsOf(
      `${TYPE}${engine(
        "hours tsn 100.0 h on 2026-01-01",
        'fit "CS-100" serial "S-1" since-new 1500 h on 2026-01-01',
        "hours tsn 150.0 h on 2026-02-01",
      )}job J1 engine C9-0412\nentry E1 2026-04-02 build job J1\n  remove "CS-100" serial "S-1"\n  fit "CS-100" serial "S-2"\n`,
    );
    expect(items.map(short)).toEqual([["CS-100 S-2", "ahead", "at 2150.0 h, 2000.0 h", "on 2038-04-02, 4354 days"]]);
    const before = itemsOf(
      `${TYPE}${engine("hours tsn 100.0 h on 2026-01-01", 'fit "CS-100" serial "S-1" since-new 1500 h on 2026-01-01', "hours tsn 150.0 h on 2026-02-01")}`,
    );
    expect(before.map(short)).toEqual([["CS-100 S-1", "ahead", "at 600.0 h, 450.0 h", "on 2038-01-01, 4263 days"]]);
  });

  test("a bulletin is done once it is embodied, and due again where it repeats", () => {
    const text = `bulletin B-07 Curlew-9 "Cam ring" mandatory by 2026-12-31
bulletin B-08 Curlew-9 "Look at the clamps" mandatory repeat 3 months
${engine("hours tsn 100.0 h on 2026-01-01", "embodied B-07 on 2026-01-05", "embodied B-08 on 2026-01-05")}`;
    expect(itemsOf(text).map(short)).toEqual([
      ["B-07", "done"],
      ["B-08", "overdue", "on 2026-04-05, 26 days"],
    ]);
  });
});

test("the notice is 10 h or 30 days where the shop says nothing", () => {
  expect(noticeOf(shopOf({ "a.gudgeon": "" }, { rules: [] }).checker.ask)).toMatchObject({ hours_h: 10, days: 30 });
  const ask = shopOf({ "a.gudgeon": 'shop "S"\n  notice 25 h or 2 months\n' }, { rules: [] }).checker.ask;
  expect(noticeOf(ask)).toMatchObject({ hours_h: 25, days: 60 });
});
