/** Findings of measuring and tightening whose severity depends on how far the job is: what suites of marks do not show. */
import { describe, expect, test } from "vitest";
import { shopOf } from "../support/shop.ts";

const HEAD = `person ATH "Ada Thorne"
  role fitter from 2024-01-08
instrument TW-1 "Torque wrench"
  range 20..100 N.m
  calibrated 2026-01-10 until 2027-01-10
instrument BG-9 "Bore gauge"
  uncertainty 0.012 mm
  calibrated 2026-01-10 until 2027-01-10
engine-type Curlew-9
  places cylinder.bore[1..2]
limits Curlew-9 revision C from 2025-11-01
  limit cylinder.bore[1..2] 98.000..98.022 mm
  torque cylinder.nut[1..2] 38..42 N.m locking wire retorque
engine C9-0412 Curlew-9
route top
  step build needs limits wear cylinder; torque cylinder
  step close after build
stand TS-1 "Run stand"
job J1 engine C9-0412 route top limits C
`;
const BUILD = "entry E1 2026-02-27 build job J1\n  torque cylinder.nut[1..2] 40 N.m with TW-1\n";
const CLOSED = "entry E9 2026-03-09 close job J1\n  sign fitter ATH 2026-03-09\n";
const RELEASED = 'release 2026-04-20 J1 by ATH "Carried out"\n';

const severities = (text: string, code: string): string[] =>
  shopOf({ "job.gudgeon": HEAD + text })
    .checker.allFindings()
    .filter((one) => one.finding.code === code)
    .map((one) => one.severity);

describe("work to do is a hint, and an error once a later step is signed", () => {
  test.each([
    ["limit/not-measured", ""],
    ["torque/missing", ""],
    ["torque/locking-missing", BUILD],
  ])("%s", (code, work) => {
    expect(severities(work, code)).toEqual(["hint"]);
    // The signature of the step itself is another matter: sign rules look at it.
    expect(severities(`${work}entry E5 2026-03-01 build job J1\n  sign fitter ATH 2026-03-01\n`, code)).toEqual([
      "hint",
    ]);
    expect(severities(work + CLOSED, code)).toEqual(["error"]);
  });
  test("torque/retorque-missing is a warning after the run, an error after the release", () => {
    const run = `${BUILD}run R1 2026-04-11 job J1 stand TS-1 by ATH\n`;
    expect(severities(BUILD, "torque/retorque-missing")).toEqual([]);
    expect(severities(run, "torque/retorque-missing")).toEqual(["warning"]);
    expect(severities(run + RELEASED, "torque/retorque-missing")).toEqual(["error"]);
  });
});

describe("how far off decides", () => {
  test("instrument/too-coarse: below one to one no reading proves anything", () => {
    const read = (u: string): string =>
      `instrument BG-8 "Bore gauge"\n  uncertainty ${u} mm\n  calibrated 2026-01-10 until 2027-01-10\nentry E1 2026-02-19 build job J1\n  measure cylinder.bore[1] 98.011 mm with BG-8\n`;
    expect(severities(read("0.004"), "instrument/too-coarse")).toEqual(["information"]);
    expect(severities(read("0.012"), "instrument/too-coarse")).toEqual(["warning"]);
  });
  test("torque/wrench-range: above the greatest setting is an error, below a fifth a warning", () => {
    const torque = (value: string): string =>
      `entry E1 2026-02-27 build job J1\n  torque thrust.nut ${value} N.m with TW-1\n`;
    expect(severities(torque("101"), "torque/wrench-range")).toEqual(["error"]);
    expect(severities(torque("19"), "torque/wrench-range")).toEqual(["warning"]);
    expect(severities(torque("100"), "torque/wrench-range")).toEqual([]);
  });
});
