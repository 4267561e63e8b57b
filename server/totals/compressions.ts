/**
 * Compression tests of a job: which reading of a cylinder counts now, and by which limit.
 *
 * A low reading is kept when the cylinder is tested again after work on the engine or a run; it is then superseded. A better reading with nothing
 * between is measuring until it fits, and the low one stays open.
 */
import type { Ask, Total } from "../checking/ask.ts";
import type { At, CompressionLimit, CompressionTable, LimitsBlock, Reading } from "../facts/types.ts";
import { compareExact, compareMeasures, difference, type Measure } from "../quantity/compare.ts";
import { orderOfWork } from "./place-events.ts";
import { limitsOfJob } from "./run-context.ts";

export interface CompressionResult {
  readonly cylinder: string;
  readonly at: At;
  readonly result: Reading["result"];
  /** In the unit as written; NaN without a value. */
  readonly value: number;
  /** `76 psi`, `?`, or "" for none. */
  readonly text: string;
  readonly heard: readonly string[];
  /** Whether a later test of this cylinder took its place. */
  readonly status: "current" | "superseded" | "contradicted";
  /** Against the least pressure of the limit: `unknown` without one. */
  readonly verdict: "inside" | "below" | "unknown";
}

export interface CompressionTest {
  readonly ref: string;
  readonly at: At;
  readonly method: "differential" | "direct";
  readonly state: "" | "hot" | "warm" | "cold";
  readonly rows: readonly CompressionResult[];
  /** Greatest less least, in the unit of the readings; NaN with fewer than two. */
  readonly spread: number;
  readonly unit: string;
  readonly highest: string;
  readonly lowest: string;
  readonly spreadVerdict: "inside" | "over" | "unknown";
  /** Superseded as a whole: every cylinder was tested again after work or a run. */
  readonly status: "current" | "superseded";
}

export interface CompressionResults {
  readonly tests: readonly CompressionTest[];
  /** Type and revision of the limits, `""` where none are known. */
  readonly limits: string;
}

/**
 * The limit that judges a test: same method and, where one says so, the same state of the engine. Of several such lines the one with the lowest
 * least pressure is the limit; higher ones ask for a retest.
 */
export function limitForTest(
  limits: LimitsBlock | undefined,
  test: Pick<CompressionTable, "method" | "state">,
): CompressionLimit | undefined {
  const lines = linesFor(limits, test);
  return lines.reduce<CompressionLimit | undefined>((low, line) => {
    if (!low?.least) return line.least || !low ? line : low;
    return line.least && sameDimension(line.least, low.least) && compareMeasures(line.least, low.least) < 0
      ? line
      : low;
  }, undefined);
}

/** All limit lines for a test, those of its own state before those that name none or another. */
export function linesFor(
  limits: LimitsBlock | undefined,
  test: Pick<CompressionTable, "method" | "state">,
): readonly CompressionLimit[] {
  const lines = (limits?.compressions ?? []).filter((line) => line.method === test.method);
  const own = lines.filter((line) => line.state === test.state && line.state !== "");
  if (own.length > 0) return own;
  const open = lines.filter((line) => line.state === "");
  return open.length > 0 ? open : lines;
}

const sameDimension = (a: Measure, b: Measure): boolean => a.unit.dimension === b.unit.dimension;

/** Whether work or running stands between two blocks of a job. Runs and work in the later block's own day count by the order of the blocks. */
function workRanks(job: string, ask: Ask, rankOf: ReadonlyMap<string, number>): number[] {
  const ranks = new Set<number>();
  const add = (ref: string): void => {
    const rank = rankOf.get(ref);
    if (rank !== undefined) ranks.add(rank);
  };
  for (const head of ask.work(job)) if (head.kind === "run") add(head.ref);
  for (const { block } of ask.facts(job, "reworks")) add(block.ref);
  for (const { block } of ask.facts(job, "rectifies")) add(block.ref);
  for (const { block } of ask.facts(job, "fits")) add(block.ref);
  for (const { block } of ask.facts(job, "moves")) add(block.ref);
  return [...ranks].sort((a, b) => a - b);
}

/** Key: a job. */
export const compressionResults: Total<CompressionResults> = {
  name: "compression-results",
  compute(job: string, ask: Ask): CompressionResults {
    const tables = ask.facts(job, "compressions");
    const limits = limitsOfJob(ask, job);
    const rankOf = orderOfWork(job, ask);
    const work = workRanks(job, ask, rankOf);
    const between = (earlier: number, later: number): boolean => work.some((rank) => rank > earlier && rank <= later);
    const tests = tables.map(({ block, fact }, index): CompressionTest => {
      const limit = limitForTest(limits, fact);
      const rank = rankOf.get(block.ref) ?? 0;
      const later = tables.slice(index + 1).filter((one) => one.fact.method === fact.method);
      const rows = fact.rows.map((row): CompressionResult => {
        const again = later.find((one) =>
          one.fact.rows.some((other) => other.cylinder === row.cylinder && other.measure),
        );
        const status = !again
          ? "current"
          : between(rank, rankOf.get(again.block.ref) ?? 0)
            ? "superseded"
            : "contradicted";
        const { measure } = row;
        const verdict =
          !measure || !limit?.least || !sameDimension(measure, limit.least)
            ? "unknown"
            : compareMeasures(measure, limit.least) < 0
              ? "below"
              : "inside";
        return {
          cylinder: row.cylinder,
          at: row.at,
          result: row.result,
          value: measure?.value ?? Number.NaN,
          text: measure ? `${measure.text} ${measure.unit.spelling}` : row.result === "todo" ? "?" : "",
          heard: row.heard,
          status,
          verdict,
        };
      });
      return {
        ref: block.ref,
        at: fact.at,
        method: fact.method,
        state: fact.state,
        rows,
        ...spreadOf(fact, limit, fact.rows.length > 0 && rows.every((row) => row.status === "superseded")),
      };
    });
    return { tests, limits: limits ? `${limits.type} revision ${limits.revision}` : "" };
  },
};

function spreadOf(
  table: CompressionTable,
  limit: CompressionLimit | undefined,
  superseded: boolean,
): Pick<CompressionTest, "spread" | "unit" | "highest" | "lowest" | "spreadVerdict" | "status"> {
  let high: { readonly cylinder: string; readonly measure: Measure } | undefined;
  let low = high;
  for (const { cylinder, measure } of table.rows) {
    if (!measure) continue;
    if (!high || (sameDimension(measure, high.measure) && compareMeasures(measure, high.measure) > 0))
      high = { cylinder, measure };
    if (!low || (sameDimension(measure, low.measure) && compareMeasures(measure, low.measure) < 0))
      low = { cylinder, measure };
  }
  const status = superseded ? "superseded" : "current";
  if (!high || !low || high.cylinder === low.cylinder) {
    return {
      spread: Number.NaN,
      unit: high?.measure.unit.spelling ?? "",
      highest: high?.cylinder ?? "",
      lowest: low?.cylinder ?? "",
      spreadVerdict: "unknown",
      status,
    };
  }
  const { exact, unit } = difference(high.measure, low.measure);
  const judged = limit?.spread && limit.spread.unit.dimension === unit.dimension;
  const over = judged && limit.spread ? compareExact(exact, unit, limit.spread) > 0 : false;
  return {
    spread: exact.valueOf(),
    unit: unit.spelling,
    highest: high.cylinder,
    lowest: low.cylinder,
    spreadVerdict: judged ? (over ? "over" : "inside") : "unknown",
    status,
  };
}
