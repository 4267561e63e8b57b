/** A reading: in both families of units, against its limit, its neighbours, and what that place showed before. */
import { guardBand } from "../../calc/guard-band.ts";
import { wearShare } from "../../calc/wear.ts";
import { placeText } from "../../facts/place.ts";
import { shortRef } from "../../facts/refs.ts";
import type { LimitLine, WorkBlock } from "../../facts/types.ts";
import { formatDate } from "../../quantity/civil-date.ts";
import { compareMeasures, convertNumber, type Measure } from "../../quantity/compare.ts";
import { findUnit } from "../../quantity/units.ts";
import type { Summary, SummarySection } from "../../report/summary.ts";
import { apart, boundIn, count, inBoth, measureText, type Row, said } from "../../report/wording.ts";
import { computedFigures } from "../../totals/computed-limits.ts";
import { calibrationOn } from "../../totals/instrument-uses.ts";
import { jobContext } from "../../totals/job-context.ts";
import { limitsFor, limitsKey, serviceEnds } from "../../totals/limits-for.ts";
import {
  blockReadings,
  currentReadings,
  type HistoryReading,
  historyKey,
  placeHistory,
} from "../../totals/place-history.ts";
import { uncertaintyAt } from "../../totals/reading-verdict.ts";
import type { Subject } from "./context.ts";
import { limitText, sourceOf } from "./limit-text.ts";
import { workedSections } from "./reading-worked.ts";

const SAYS: Readonly<Record<HistoryReading["result"], string>> = {
  value: "",
  below: "",
  go: "go",
  "no-go": "no-go",
  todo: "still to be taken",
  none: "does not apply",
  bad: "cannot be read",
};
const mm = findUnit("mm");

function shown(reading: HistoryReading, both = false): string {
  if (!reading.measure) return SAYS[reading.result];
  const text = both ? inBoth(reading.measure) : measureText(reading.measure);
  return reading.result === "below" ? `less than ${text}` : text;
}

/** The reading against its limit: by how much, to which end. */
function marginRow(reading: HistoryReading, line: LimitLine | undefined): Row | undefined {
  const { measure } = reading;
  const ends = line && serviceEnds(line);
  if (!measure || !ends || reading.result !== "value") return undefined;
  const low = ends.low?.unit.dimension === measure.unit.dimension ? ends.low : undefined;
  const high = ends.high?.unit.dimension === measure.unit.dimension ? ends.high : undefined;
  if (low && compareMeasures(measure, low) < 0)
    return ["margin", `${apart(measure, low)} below ${ends.kind} ${boundIn(low, measure.unit)}`];
  if (high && compareMeasures(measure, high) > 0)
    return ["margin", `${apart(measure, high)} above ${ends.kind} ${boundIn(high, measure.unit)}`];
  const sides = [low && `${apart(measure, low)} above the least`, high && `${apart(measure, high)} below the greatest`];
  return [
    "margin",
    `inside: ${sides.filter(Boolean).join(", ")}${reading.verdict === "new" ? ", within the new limits" : reading.outsideNew ? ", not within the new limits" : ""}`,
  ];
}

/** How much of what a part may wear is used: from the edge of the new limits to the wear limit. */
function wearRows(measure: Measure | undefined, line: LimitLine | undefined): Row[] {
  const wear = line?.wearLimits?.high ?? line?.wearLimits?.low;
  const edge = line?.wearLimits?.high ? line.newLimits?.high : line?.newLimits?.low;
  if (!measure || !wear || !edge || !mm || [measure, wear, edge].some((one) => one.unit.dimension !== "length"))
    return [];
  const inMm = (one: Measure): number => convertNumber(one.value, one.unit, mm);
  const used = wearShare(inMm(measure), inMm(edge), inMm(wear));
  return used.ok
    ? [["allowance used", `${Math.round(used.share * 100)} %`], ...used.steps.map((step): Row => ["", step])]
    : [];
}

/** What the gauge leaves undecided. */
function gaugeRows(reading: HistoryReading, line: LimitLine | undefined, subject: Subject): Row[] {
  const { ask, scope } = subject;
  const gauge = reading.instrument === "" ? undefined : ask.instrument(reading.instrument);
  const rows: Row[] = [];
  if (reading.instrument !== "") {
    const state = gauge && reading.date !== undefined ? calibrationOn(gauge, reading.date).state : undefined;
    const title = gauge ? ` ${gauge.title}` : " (no such instrument)";
    rows.push([
      "with",
      `${reading.instrument}${title}${reading.standard === "" ? "" : `, set on ${reading.standard}`}${state && state !== "good" ? `, calibration ${state} on that day` : ""}`,
    ]);
  }
  const { measure } = reading;
  const ends = line && serviceEnds(line);
  const u = measure && uncertaintyAt(gauge, measure);
  if (!measure || u === undefined || !ends || reading.result !== "value") return rows;
  const inUnit = (bound: Measure | undefined): number | undefined =>
    bound?.unit.dimension === measure.unit.dimension ? convertNumber(bound.value, bound.unit, measure.unit) : undefined;
  const band = guardBand(
    measure.value,
    { lower: inUnit(ends.low), upper: inUnit(ends.high) },
    u,
    ask.total(jobContext, scope).decision,
  );
  if (band.ok)
    rows.push(
      [
        "proven",
        band.decision === "conforming"
          ? "yes"
          : band.decision === "not conforming"
            ? "no, outside"
            : "no, the gauge is too near the limit",
      ],
      ...band.steps.map((step): Row => ["", step]),
    );
  return rows;
}

function standingRow(reading: HistoryReading): Row | undefined {
  if (reading.status === "superseded")
    return [
      "standing",
      `superseded (${reading.cause})${reading.causeRef === "" ? "" : ` by ${shortRef(reading.causeRef)}`}`,
    ];
  if (reading.status === "contradicted")
    return ["standing", "a later reading of this place disagrees, with no work between"];
  if (reading.awaits !== "") return ["standing", `${reading.awaits} since; the place is to be measured again`];
  return reading.suspect ? ["standing", "its instrument was found out at calibration; to be taken again"] : undefined;
}

/** Other places of the feature as they stand now, in words: least, greatest, and where this one lies. */
function siblingRows(reading: HistoryReading, subject: Subject, feature: string): Row[] {
  const { ask, scope } = subject;
  const now = [...currentReadings(ask.total(placeHistory, historyKey(scope, feature))).values()].filter(
    (one) => one.result === "value" && one.measure && one.state === reading.state,
  );
  const last = reading.path.includes("/") ? reading.path.slice(reading.path.lastIndexOf("/")) : "";
  const row = reading.path.includes("/") ? reading.path.slice(0, reading.path.indexOf("/") + 1) : "";
  const rows: Row[] = [];
  const spread = (label: string, list: readonly HistoryReading[]): void => {
    const sorted = list
      .filter((one) => one.measure?.unit.dimension === reading.measure?.unit.dimension)
      .sort((a, b) => compareMeasures(a.measure as Measure, b.measure as Measure));
    const least = sorted[0];
    const greatest = sorted.at(-1);
    if (!least || !greatest || sorted.length < 2) return;
    const at = (one: HistoryReading): string => `${shown(one)} at ${one.pathNow ?? one.path}`;
    rows.push([label, `${at(least)} to ${at(greatest)}, ${count(sorted.length, "reading")}`]);
  };
  if (row !== "")
    spread(
      "this row",
      now.filter((one) => (one.pathNow ?? one.path).startsWith(row)),
    );
  spread(
    last === "" ? "siblings" : `siblings, ${last.slice(1)}`,
    last === "" ? now : now.filter((one) => (one.pathNow ?? one.path).endsWith(last)),
  );
  return rows;
}

/** Figures worked out from this reading: taper, clearance and the like, with their limits. */
function figureRows(reading: HistoryReading, subject: Subject): Row[] {
  const { ask, scope } = subject;
  const { type, revision } = ask.total(jobContext, scope);
  const rows: Row[] = [];
  for (const line of ask.limits(type, revision)?.limits ?? []) {
    if (line.formula.length === 0 && line.stat === "value") continue;
    for (const figure of ask.total(computedFigures, `${scope}|${line.at}`)) {
      if (
        !figure.parts.some((part) => part.ref === reading.ref && part.at === reading.at && part.cell === reading.cell)
      )
        continue;
      const name =
        line.stat === "value"
          ? placeText(figure.feature, figure.path)
          : `${line.stat} of ${placeText(figure.feature, figure.path)}`;
      const out =
        figure.verdict === "out" && figure.bound
          ? `, ${figure.excess} ${figure.end === "low" ? "below" : "above"} ${figure.boundKind} ${measureText(figure.bound)}`
          : "";
      rows.push([name, `${figure.working} = ${figure.text}${out}; limit ${limitText(line)}`]);
    }
  }
  return rows;
}

function historyRows(reading: HistoryReading, feature: string, subject: Subject): Row[] {
  const { ask, scope } = subject;
  const engine = ask.total(jobContext, scope).engine;
  const scopes =
    engine === "" ? [scope] : [...new Set([...ask.jobsOf(engine).map((job) => job.name), `engine:${engine}`, scope])];
  const place = reading.pathNow ?? reading.path;
  const rows: Row[] = [];
  for (const other of scopes) {
    for (const one of ask.total(placeHistory, historyKey(other, feature)).readings) {
      const isThis = one.ref === reading.ref && one.at === reading.at && one.cell === reading.cell;
      if (isThis || (one.pathNow ?? one.path) !== place || one.state !== reading.state || one.result === "todo")
        continue;
      rows.push([
        `${one.ref}${one.date === undefined ? "" : ` ${formatDate(one.date)}`}`,
        `${shown(one)}${one.status === "superseded" ? `, superseded (${one.cause})` : one.verdict === "out" ? ", out of limit" : ""}`,
      ]);
    }
  }
  return rows;
}

function lineFor(reading: HistoryReading, feature: string, subject: Subject): LimitLine | undefined {
  const { type, revision } = subject.ask.total(jobContext, subject.scope);
  const limits = subject.ask.total(limitsFor, limitsKey(type, revision, feature));
  return limits.readings.find((line) => line.at === reading.limitAt);
}

function oneReading(reading: HistoryReading, feature: string, subject: Subject): Summary {
  const line = lineFor(reading, feature, subject);
  const sections: SummarySection[] = [
    {
      heading: "",
      rows: said(
        line
          ? ["limit", `${limitText(line)} (${sourceOf(subject.scope, line.reference, subject.ask)})`]
          : ["limit", "none is known"],
        marginRow(reading, line),
        ...wearRows(reading.measure, line),
        ...gaugeRows(reading, line, subject),
        standingRow(reading),
        reading.size && ["size", measureText(reading.size)],
        reading.contradicts && [
          "disagrees with",
          `${reading.contradicts.measure ? measureText(reading.contradicts.measure) : ""} in ${shortRef(reading.contradicts.ref)}`,
        ],
      ),
    },
    ...workedSections(reading, feature, subject, line),
    { heading: "Siblings now", rows: siblingRows(reading, subject, feature) },
    { heading: "Worked out from it", rows: figureRows(reading, subject) },
    { heading: "This place before and after", rows: historyRows(reading, feature, subject) },
  ];
  return { title: `${placeText(feature, reading.path)}: ${shown(reading, true)}`, sections };
}

function wholeRow(readings: readonly HistoryReading[], feature: string, subject: Subject): Summary {
  const first = readings[0];
  const row = first.path.includes("/") ? first.path.slice(0, first.path.lastIndexOf("/")) : first.path;
  const line = lineFor(first, feature, subject);
  const rows = readings.map((one): Row => {
    const short = one.path === row ? one.path : one.path.slice(row.length + 1);
    const said = one.measure ? marginRow(one, lineFor(one, feature, subject))?.[1] : undefined;
    return [short, `${shown(one, true)}${said === undefined ? "" : `; ${said}`}`];
  });
  return {
    title: `${placeText(feature, row)}: ${count(readings.length, "reading")}`,
    sections: [
      {
        heading: "",
        rows: line
          ? [["limit", `${limitText(line)} (${sourceOf(subject.scope, line.reference, subject.ask)})`]]
          : [["limit", "none is known"]],
      },
      { heading: "", rows },
      {
        heading: "Worked out from it",
        rows: [...new Map(readings.flatMap((one) => figureRows(one, subject)).map((one) => [one[0], one])).values()],
      },
    ],
  };
}

/** The readings that a line of a block holds. @param cell one of them, or -1 for the whole line */
export function readingSummary(subject: Subject, block: WorkBlock, at: number, cell: number): Summary | undefined {
  const own = block.readings.filter((one) => one.at === at);
  const feature = own[0]?.feature;
  if (feature === undefined) return undefined;
  const judged = subject.ask
    .total(blockReadings, `${subject.scope}|${feature}|${block.ref}`)
    .filter((one) => one.at === at);
  const one = judged.length === 1 ? judged[0] : judged.find((reading) => reading.cell === cell);
  if (one) return oneReading(one, feature, subject);
  return judged.length > 0 ? wholeRow(judged, feature, subject) : undefined;
}
