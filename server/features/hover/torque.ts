/** A torque as done, with the setting of the wrench worked out; a torque of the limits with what of it is done. */
import { torqueWithDrag } from "../../calc/prevailing-torque.ts";
import { dialSetting } from "../../calc/torque-adapter.ts";
import { wrenchRange } from "../../calc/wrench-range.ts";
import { countOf, pathsOf } from "../../facts/place.ts";
import type { TorqueLimit, TorqueLine, WorkBlock } from "../../facts/types.ts";
import { convertNumber, type Measure } from "../../quantity/compare.ts";
import { findUnit, type Unit } from "../../quantity/units.ts";
import type { Summary } from "../../report/summary.ts";
import { count, few, inBoth, measureText, type Row, said } from "../../report/wording.ts";
import { jobContext } from "../../totals/job-context.ts";
import { chooseTorque, limitsFor, limitsKey } from "../../totals/limits-for.ts";
import { historyKey } from "../../totals/place-history.ts";
import { featureTorques } from "../../totals/torque-coverage.ts";
import type { Subject } from "./context.ts";
import { sourceOf, torqueLimitText } from "./limit-text.ts";

const Nm = findUnit("N.m");
const mm = findUnit("mm");
const degree = findUnit("deg");

/** A measure as a double in a unit; undefined where it is of another kind. */
function as(measure: Measure | undefined, unit: Unit | undefined): number | undefined {
  return measure && unit && measure.unit.dimension === unit.dimension
    ? convertNumber(measure.value, measure.unit, unit)
    : undefined;
}

/** The working of the dial setting: with an adapter, and whether the wrench is used where it is good. */
function settingRows(line: TorqueLine, subject: Subject): Row[] {
  const wanted_Nm = as(line.value, Nm);
  const wrench = line.instrument === "" ? undefined : subject.ask.instrument(line.instrument);
  const length_mm = as(line.adapter?.length ?? wrench?.length, mm);
  const rows: Row[] = [];
  let dial_Nm = wanted_Nm;
  if (line.adapter && wanted_Nm !== undefined && length_mm !== undefined) {
    const setting = dialSetting(wanted_Nm, {
      wrenchLength_mm: length_mm,
      adapterLength_mm: as(line.adapter.extension, mm) ?? Number.NaN,
      angle_deg: line.adapter.angle ? (as(line.adapter.angle, degree) ?? Number.NaN) : 0,
    });
    if (setting.ok) {
      dial_Nm = setting.dial_Nm;
      rows.push(...setting.steps.map((step): Row => ["", step]));
    } else rows.push(["", setting.refused]);
  }
  if (line.setting) rows.push(["set", inBoth(line.setting)]);
  const greatest_Nm = as(wrench?.range?.high, Nm);
  if (dial_Nm !== undefined && greatest_Nm !== undefined) {
    const range = wrenchRange(dial_Nm, greatest_Nm, as(wrench?.range?.low, Nm));
    if (range.ok) rows.push(...range.steps.map((step): Row => ["", step]));
  }
  return rows;
}

function dragRows(line: TorqueLine, limit: TorqueLimit | undefined): Row[] {
  const [low, high, drag] = [as(limit?.bounds.low, Nm), as(limit?.bounds.high, Nm), as(line.drag, Nm)];
  if (low === undefined || high === undefined || drag === undefined) return [];
  const sum = torqueWithDrag(low, high, drag);
  return sum.ok ? sum.steps.map((step): Row => ["", step]) : [];
}

const VERDICT = { in: "inside", low: "too low", high: "too high", none: "no limit to judge by" } as const;

/** A torque line of an entry. */
export function torqueSummary(subject: Subject, block: WorkBlock, at: number): Summary | undefined {
  const { ask, scope } = subject;
  const line = block.torques.find((one) => one.at === at);
  if (!line) return undefined;
  const { type, revision } = ask.total(jobContext, scope);
  const limit = chooseTorque(
    ask.total(limitsFor, limitsKey(type, revision, line.place.feature)).torques,
    pathsOf(line.place)[0] ?? "",
  );
  const judged = ask
    .total(featureTorques, historyKey(scope, line.place.feature))
    .verdicts.find((one) => one.ref === block.ref && one.at === at);
  const lubrication =
    limit && limit.lubrication !== "" && line.lubrication !== "" && limit.lubrication !== line.lubrication
      ? `${line.lubrication}, but the limit is for ${limit.lubrication}`
      : line.lubrication;
  return {
    title: `${line.place.text}: ${inBoth(line.value)} at ${count(countOf(line.place), "fastener")}`,
    sections: [
      {
        heading: "",
        rows: said(
          ["limit", limit ? `${torqueLimitText(limit)} (${sourceOf(scope, limit.reference, ask)})` : "none is known"],
          judged && ["standing", `${VERDICT[judged.verdict]}${judged.superseded ? ", superseded by later work" : ""}`],
          ["lubrication", lubrication],
          [
            "with",
            line.instrument === ""
              ? ""
              : `${line.instrument}${ask.instrument(line.instrument) ? ` ${ask.instrument(line.instrument)?.title}` : " (no such instrument)"}`,
          ],
          line.drag && ["drag", measureText(line.drag)],
        ),
      },
      { heading: "Setting of the wrench", rows: settingRows(line, subject) },
      { heading: "Self-locking", rows: dragRows(line, limit) },
    ],
  };
}

/** A torque line of the limits: which jobs work to it, and what is done in each. */
export function torqueLimitSummary(subject: Subject, line: TorqueLimit, type: string, revision: string): Summary {
  const { ask } = subject;
  const rows: Row[] = [];
  for (const job of ask.jobs()) {
    const context = ask.total(jobContext, job.name);
    if (context.type !== type || context.revision !== revision) continue;
    const done = ask
      .total(featureTorques, historyKey(job.name, line.place.feature))
      .lines.find((one) => one.limitAt === line.at);
    if (done)
      rows.push([
        job.name,
        `${done.torqued} of ${done.expected} torqued${done.out > 0 ? `, ${done.out} out of range` : ""}${done.missing.length > 0 ? `; not yet: ${few(done.missing)}` : ""}`,
      ]);
  }
  return {
    title: `Torque of ${line.place.text}, ${type} revision ${revision}`,
    sections: [
      {
        heading: "",
        rows: said(
          ["at the fastener", torqueLimitText(line)],
          [
            "in other units",
            [line.bounds.low, line.bounds.high]
              .filter((one) => one !== undefined)
              .map((one) => inBoth(one))
              .join(" to "),
          ],
          ["fasteners", String(countOf(line.place))],
          ["ref", line.reference],
        ),
      },
      { heading: "In jobs that work to it", rows },
    ],
  };
}
