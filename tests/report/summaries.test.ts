/** Sums of an engine, a job and a run: each figure below is worked by hand from the few lines that the test writes. */
import { describe, expect, test } from "vitest";
import { engineSummary } from "../../server/report/engine-summary.ts";
import { jobSummaryOf } from "../../server/report/job-summary.ts";
import { runSummaryOf } from "../../server/report/run-summary.ts";
import { type Summary, toMarkdown, toText } from "../../server/report/summary.ts";
import { shopOf } from "../support/shop.ts";

const TYPE = `shop "Saltmarsh Engine Works"
  stand-time counts
  money GBP
engine-type Curlew-9
  layout radial 9
limits Curlew-9 revision C from 2025-11-01
  limit piston.pin[1..3] new 23.990..24.000 mm wear min 23.980 mm
  limit oil.pressure min 55 psi while crank.speed 1400..2300 rpm
  torque cylinder.nut[1..4] 38..42 N.m oiled
run-in Curlew-9
  step 1 for 2 min at crank.speed 700..900 rpm
  step 2 for 5 min at crank.speed 1000..1200 rpm
task strainer-clean Curlew-9 every 25 h
bulletin B-07 Curlew-9 "Cam ring" mandatory by 2026-12-31
route top
  step inspect needs limits wear piston; sign fitter
  step stand after inspect needs run-in Curlew-9
`;
const ENGINE = `engine C9-0412 Curlew-9
  owner "Fenland Flying Museum"
  hours tsn 100.0 h tso 10.0 h on 2026-02-16
  meter tacho 312.4 h on 2026-02-16
  overhauled on 2025-01-05
  done strainer-clean on 2026-02-16 at tsn 100.0 h
`;
const JOB = `job J1 engine C9-0412 route top limits C
  scope "Top overhaul"
  received 2026-02-16
  wanted 2026-05-01
entry E1 2026-02-19 inspect job J1
  measure piston.pin[1] 23.995 mm
  measure piston.pin[2] 23.970 mm
  measure piston.pin[3] ?
  torque cylinder.nut[1..3] 40 N.m oiled
  defect D1 baffle[4] "Cracked"
  open gear-case
  labour ATH 1.5 h inspect
  labour RPE 30 min inspect
  labour ATH 2 h
account J1
  rate 40.00 GBP/h
  rate inspect 60.00 GBP/h
  cost "Guides" 410.50 GBP
`;
const RUN = `run R1 2026-04-01 job J1 by ATH second RPE
  log time crank.speed/rpm oil.pressure/psi oil.temp/C
  10:00 800 50 20.5
  10:01 800 60 21.0
  10:02 800 58 23.0
  10:03 1600 62 24.0
  fuel 2 L
  oil added 0.5 L
`;

const files = { "type.gudgeon": TYPE, "engine.gudgeon": ENGINE, "job.gudgeon": JOB };

/** `heading / label` to value; lines without a label are listed under their heading. */
function rows(summary: Summary | undefined): Record<string, string> {
  const found: Record<string, string> = {};
  for (const section of summary?.sections ?? [])
    for (const [label, value] of section.rows) found[`${section.heading} / ${label}`] = value;
  return found;
}

describe("an engine", () => {
  const of = (more: Record<string, string> = {}, asOf = "2026-05-01"): Record<string, string> =>
    rows(engineSummary(shopOf({ ...files, ...more }, { asOf, rules: [] }).checker.ask, "C9-0412"));
  test("hours, meters, the next due item, open defects and bulletins", () => {
    const found = of();
    expect(found).toMatchObject({
      " / owner": "Fenland Flying Museum",
      "Hours as of 2026-05-01 / since new (tsn)": "100.0 h",
      "Hours as of 2026-05-01 / since overhaul (tso)": "10.0 h",
      "Hours as of 2026-05-01 / meter tacho": "312.4 h on 2026-02-16",
      "Hours as of 2026-05-01 / last overhaul": "2025-01-05",
      "Due next / strainer-clean": "25.0 h left, due at 125.0 h (every 25 h)",
      "Open defects / J1/D1": "baffle[4]: Cracked",
      "Bulletins / B-07": "Cam ring: mandatory, not embodied, 244 days left, due on 2026-12-31",
      "Jobs / J1": "in work since 2026-02-19: Top overhaul",
    });
  });
  test("running on the stand is added: 3 minutes are 0.05 h", () => {
    expect(of({ "run.gudgeon": RUN })["Hours as of 2026-05-01 / since new (tsn)"]).toBe("100.05 h");
  });
  test("before anything is stated nothing is made up", () => {
    expect(of({}, "2024-01-01")["Hours as of 2024-01-01 / "]).toBe("No hours are stated up to this day.");
  });
  test("a run without a speed is named, not guessed", () => {
    expect(
      of({ "run.gudgeon": RUN.replaceAll("crank.speed/rpm", "shaft.speed/rpm") })[
        "Hours as of 2026-05-01 / not counted"
      ],
    ).toBe("J1/R1: no log shows how long the engine ran");
  });
  test("that nobody declares has no sums", () => {
    expect(engineSummary(shopOf(files, { rules: [] }).checker.ask, "none")).toBeUndefined();
  });
});

describe("a job", () => {
  const of = (more: Record<string, string> = {}): Record<string, string> =>
    rows(jobSummaryOf(shopOf({ ...files, ...more }, { rules: [] }).checker.ask, "J1"));
  test("route, coverage, labour, cost, run time, open items", () => {
    const found = of({ "run.gudgeon": RUN });
    expect(found).toMatchObject({
      " / wanted by": "2026-05-01",
      // The stand step asks for a run on the schedule; how far the schedule has come is said apart.
      "Route top / steps done": "1 of 2",
      "Route top / next": "inspect, begun",
      "Coverage / places measured": "2 of 3, 1 still to be taken, 1 out of limit",
      "Coverage / not yet measured": "piston.pin (1)",
      "Coverage / torques": "3 of 4",
      // 1.5 h and 30 min at 60.00, 2 h at the plain rate of 40.00, and the guides.
      "Labour, cost and running / labour": "4 h (ATH 3 h 30 min, RPE 30 min)",
      "Labour, cost and running / cost": "610.50 GBP (labour 200.00, other 410.50)",
      "Labour, cost and running / run time": "3 min in 1 run",
      "Labour, cost and running / running-in Curlew-9": "1 of 2 steps met",
      "Open items / defects open": "D1",
      "Open items / opened, not closed": "gear-case (E1)",
    });
  });
  test("without an account nothing is costed", () => {
    const found = of({ "job.gudgeon": JOB.slice(0, JOB.indexOf("account")) });
    expect(found["Labour, cost and running / labour"]).toBe("4 h (ATH 3 h 30 min, RPE 30 min)");
    expect(found["Labour, cost and running / cost"]).toBeUndefined();
  });
  test("without limits says so instead of calling all of it measured", () => {
    expect(of({ "type.gudgeon": "engine-type Curlew-9\n" })["Coverage / limits"]).toBe("none are known for this job");
  });
});

describe("a run", () => {
  const found = rows(runSummaryOf(shopOf({ ...files, "run.gudgeon": RUN }, { rules: [] }).checker.ask, "J1/R1"));
  test("how long, how fast", () => {
    // Two minutes at 800, then a straight line to 1600 in one minute: a quarter of it below 1000, and so on by thirds of 500 of 800.
    expect(found).toMatchObject({
      " / running": "3 min in 1 start",
      " / logged": "3 min, 4 rows",
      "Time at speed / 500 to 1000 rpm": "2 min 15 s",
      "Time at speed / 1000 to 1500 rpm": "38 s",
      "Time at speed / 1500 to 2000 rpm": "8 s",
    });
  });
  test("each channel: least, greatest and when, mean over time, limit", () => {
    // (55 + 59 + 60) / 3 = 58.0; (20.75 + 22 + 23.5) / 3 = 22.08.
    expect(found["Channels, limits Curlew-9 revision C / oil.pressure (psi)"]).toBe(
      "50 to 62 (at 10:03), mean 58.0; limit min 55 psi while crank.speed 1400..2300 rpm",
    );
    expect(found["Channels, limits Curlew-9 revision C / oil.temp (C)"]).toBe(
      "20.5 to 24 (at 10:03), mean 22.08; no limit".replace("24 (", "24.0 ("),
    );
  });
  test("fuel, oil, and the steps of running-in", () => {
    // 2 L in 3 minutes of running: 40 L/h.
    expect(found).toMatchObject({ " / fuel": "2 L (40.0 L/h)", " / oil added": "0.5 L" });
    expect(found["Running-in Curlew-9: 1 of 2 steps met over the job / step 1"]).toMatch(
      /^met: 2 min( \d+ s)? of 2 min at 700\.\.900 rpm$/u,
    );
  });
  test("an entry is no run", () => {
    expect(runSummaryOf(shopOf(files, { rules: [] }).checker.ask, "J1/E1")).toBeUndefined();
  });
});

describe("as text", () => {
  const summary: Summary = {
    title: "A *b*",
    sections: [
      {
        heading: "H",
        rows: [
          ["x", "[1]"],
          ["", "plain"],
        ],
      },
      { heading: "empty", rows: [] },
    ],
  };
  test("Markdown keeps what a record says from turning into marks", () => {
    expect(toMarkdown(summary)).toBe("**A \\*b\\***\n\n*H*\n\n- x: \\[1\\]\n- plain");
  });
  test("the terminal gets it as it is, without empty headings", () => {
    expect(toText(summary)).toBe("A *b*\n  H\n    x  [1]\n    plain");
  });
});
