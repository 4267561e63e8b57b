/** A limit's line: both families of units, where it differs from other revisions, and how the jobs that work to it stand. */
import { fitLimits, toleranceClassLimits } from "../../calc/iso-286-fit.ts";
import { countOf } from "../../facts/place.ts";
import type { LimitLine, LimitsBlock } from "../../facts/types.ts";
import { formatDate } from "../../quantity/civil-date.ts";
import { convertNumber } from "../../quantity/compare.ts";
import { findUnit } from "../../quantity/units.ts";
import type { Summary } from "../../report/summary.ts";
import { inBoth, type Row, said } from "../../report/wording.ts";
import { computedFigures } from "../../totals/computed-limits.ts";
import { featureCoverage } from "../../totals/coverage.ts";
import { jobContext } from "../../totals/job-context.ts";
import { historyKey } from "../../totals/place-history.ts";
import type { Subject } from "./context.ts";
import { limitText } from "./limit-text.ts";
import { torqueLimitSummary } from "./torque.ts";

function jobRows(subject: Subject, limits: LimitsBlock, line: LimitLine): Row[] {
  const { ask } = subject;
  const rows: Row[] = [];
  for (const job of ask.jobs()) {
    const context = ask.total(jobContext, job.name);
    if (context.type !== limits.type || context.revision !== limits.revision) continue;
    if (line.stat !== "value" || line.formula.length > 0) {
      const figures = ask.total(computedFigures, `${job.name}|${line.at}`);
      const out = figures.filter((one) => one.verdict === "out");
      if (figures.length > 0)
        rows.push([
          job.name,
          `${figures.length} worked out, ${out.length} out of limit${out[0] ? `: ${out.map((one) => `${one.path} ${one.text}`).join(", ")}` : ""}`,
        ]);
      continue;
    }
    const done = ask
      .total(featureCoverage, historyKey(job.name, line.place.feature))
      .find((one) => one.limitAt === line.at);
    if (done)
      rows.push([
        job.name,
        `${done.measured} of ${done.expected - done.notApplicable} measured: ${done.isNew} within new, ${done.isIn} within wear, ${done.isOut} out${done.again.length > 0 ? `; ${done.again.length} to be measured again` : ""}`,
      ]);
  }
  return rows;
}

function otherRevisions(subject: Subject, limits: LimitsBlock, line: LimitLine): Row[] {
  return subject.ask
    .revisions(limits.type)
    .filter((one) => one.revision !== limits.revision)
    .flatMap((one): Row[] => {
      const same = one.limits.find(
        (other) =>
          other.stat === line.stat &&
          other.place.text === line.place.text &&
          other.size?.text === line.size?.text &&
          other.state === line.state,
      );
      return [
        [
          `revision ${one.revision}${one.from === undefined ? "" : ` from ${formatDate(one.from)}`}`,
          same ? (limitText(same) === limitText(line) ? "the same" : limitText(same)) : "no such line",
        ],
      ];
    });
}

/** How the limits of a class or a fit come out of the tables. */
function classRows(line: LimitLine): Row[] {
  const { toleranceClass } = line;
  if (!toleranceClass) return [];
  const mm = findUnit("mm");
  const { text, nominal, refused } = toleranceClass;
  if (refused !== "" || !mm) return [["", refused]];
  const nominal_mm = convertNumber(nominal.value, nominal.unit, mm);
  const found = text.includes("/") ? fitLimits(nominal_mm, text) : toleranceClassLimits(nominal_mm, text);
  return found.ok ? found.steps.map((step): Row => ["", step]) : [["", found.refused]];
}

/** A line of a limits block: a limit, a torque. */
export function limitSummary(subject: Subject, limits: LimitsBlock, at: number): Summary | undefined {
  const torque = limits.torques.find((one) => one.at === at);
  if (torque) return torqueLimitSummary(subject, torque, limits.type, limits.revision);
  const line = limits.limits.find((one) => one.at === at);
  if (!line) return undefined;
  const ends = [
    ["new", line.newLimits],
    ["wear", line.wearLimits],
    ["limit", line.bare],
  ] as const;
  return {
    title: `${line.stat === "value" ? "Limit" : `Limit of the ${line.stat}`} of ${line.place.text}, ${limits.type} revision ${limits.revision}`,
    sections: [
      {
        heading: "",
        rows: said(
          ["as written", limitText(line)],
          ...ends.map(
            ([name, bounds]): Row => [
              name,
              bounds
                ? [bounds.low && `least ${inBoth(bounds.low)}`, bounds.high && `greatest ${inBoth(bounds.high)}`]
                    .filter(Boolean)
                    .join(", ")
                : "",
            ],
          ),
          line.condition && ["while", `${line.condition.channel.text} ${line.condition.range.text}`],
          ["places", String(countOf(line.place))],
          ["ref", line.reference],
          limits.from !== undefined && ["in force", `from ${formatDate(limits.from)}`],
        ),
      },
      { heading: "ISO 286", rows: classRows(line) },
      { heading: "In jobs that work to it", rows: jobRows(subject, limits, line) },
      { heading: "Other revisions", rows: otherRevisions(subject, limits, line) },
    ],
  };
}
