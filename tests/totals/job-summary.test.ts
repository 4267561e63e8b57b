/** Sums of a job against figures worked out by hand beside each. */
import { describe, expect, test } from "vitest";
import { jobSummary } from "../../server/totals/job-summary.ts";
import { day, shopOf } from "../support/shop.ts";

const TEXT = `engine-type Curlew-9
engine C9-0412 Curlew-9
job J26-014 engine C9-0412
  photo "photos/order.png" "The order"
account J26-014
  rate 48.00 GBP/h
  rate inspect 62.00 GBP/h
  cost "Rings" 612.00 GBP
  cost "Freight" 95.50 EUR
entry E1 2026-02-17 strip job J26-014
  labour ATH 7.5 h strip
  labour RPE 1 h inspect
  labour ATH 20 min strip
  defect D1 baffle[4] "Cracked"
  defect D2 piston[3] "Scuffed"
  defect D3 rocker-cover[2] "Paint chipped"
  defect D4 valve[2] "Edge burnt"
  open gear-case
  open sump
  sign fitter ATH 2026-02-17
entry E2 2026-02-20 build job J26-014
  photo "photos/a.png" "Sump"
  rectify D1 "Welded"
  concession N1 of D2 by CNO 2026-02-20 "Within letter 14"
  defer D3 until 2027-04-30 by CNO 2026-02-20 "Cosmetic"
  close sump
  refuse inspector RPE 2026-02-20 E1 "Nut 3/7 not witnessed"
  sign fitter ATH 2026-02-20
run R1 2026-04-09 job J26-014 by ATH
  log elapsed/s crank.speed/rpm
  0 800
  60 800
  120 800
  180 800
run R2 2026-04-10 job J26-014 by ATH
release 2026-04-20 J26-014 by CNO "Carried out" except D3
`;

const summary = (text: string) => shopOf({ "job.gudgeon": text }).checker.ask.total(jobSummary, "J26-014");

describe("a job at a glance", () => {
  test("labour by person and kind of work", () => {
    const { labour, labour_s } = summary(TEXT);
    // 7.5 h and 20 min are 27,000 s and 1,200 s.
    expect(labour).toEqual([
      { person: "ATH", work: "strip", time_s: 28_200 },
      { person: "RPE", work: "inspect", time_s: 3_600 },
    ]);
    expect(labour_s).toBe(31_800);
  });

  test("money by currency, exactly", () => {
    // 7 h 50 min at 48.00 are 376.00; 1 h at 62.00; together 438.00, and 612.00 of parts.
    expect(summary(TEXT).money).toEqual([
      { currency: "GBP", labour: "438.00", other: "612.00", total: "1050.00" },
      { currency: "EUR", labour: "0.00", other: "95.50", total: "95.50" },
    ]);
  });

  test("labour without a rate is counted apart", () => {
    const { money, unrated_s } = summary(TEXT.replace("  rate 48.00 GBP/h\n", ""));
    expect(unrated_s).toBe(28_200);
    expect(money[0]).toEqual({ currency: "GBP", labour: "62.00", other: "612.00", total: "674.00" });
  });

  test("without an account there is no money, and the labour is unrated", () => {
    const { money, unrated_s } = summary(TEXT.replace(/account J26-014\n(?: {2}.*\n)+?(?=entry)/u, ""));
    expect(money).toEqual([]);
    expect(unrated_s).toBe(31_800);
  });

  test("a third of an hour does not lose a penny", () => {
    // Three times 20 min at 10.00 are 10.00 to the penny.
    const text = `engine-type T\nengine E T\njob J26-014 engine E\naccount J26-014\n  rate 10.00 GBP/h\nentry E1 2026-02-17 strip job J26-014\n${"  labour ATH 20 min\n".repeat(3)}`;
    expect(summary(text).money).toEqual([{ currency: "GBP", labour: "10.00", other: "0.00", total: "10.00" }]);
  });

  test("what is open, refused, signed and photographed", () => {
    const found = summary(TEXT);
    expect(found.defects).toEqual({ open: ["D4"], rectified: 1, deferred: ["D3"], conceded: ["D2"] });
    expect(found.stillOpen.map((one) => one.what)).toEqual(["gear-case"]);
    expect(found.refused).toMatchObject([{ role: "inspector", by: "RPE", of: "J26-014/E1", ref: "J26-014/E2" }]);
    expect(found.signs).toEqual([{ role: "fitter", person: "ATH", count: 2, last: day("2026-02-20") }]);
    expect(found.photos).toBe(2);
    expect([found.firstDay, found.lastDay, found.released, found.dispatched]).toEqual([
      day("2026-02-17"),
      day("2026-04-20"),
      day("2026-04-20"),
      undefined,
    ]);
  });

  test("runs: what the logs show, and how many show nothing", () => {
    const { runs, run_s, runsUnknown } = summary(TEXT);
    // R1 turns from its first row to its last, 180 s; R2 has no log.
    expect([runs, run_s, runsUnknown]).toEqual([2, 180, 1]);
  });
});
