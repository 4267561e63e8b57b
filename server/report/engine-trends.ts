/** How the readings of an engine go over its hours: compression by cylinder and metals in the oil, in plain words with the figures behind them. */
import { deviationFromBase, drift } from "../calc/trend.ts";
import type { Ask } from "../checking/ask.ts";
import { compressionSeries, oilSamples } from "../totals/trends.ts";
import type { SummarySection } from "./summary.ts";
import type { Row } from "./wording.ts";

/** Fewer readings than this show no trend, and nothing is said. */
const LEAST = 3;

function compressionRows(ask: Ask, engine: string): Row[] {
  const rows: Row[] = [];
  const series = ask.total(compressionSeries, engine);
  const kinds = new Set(series.map((one) => `${one.cylinder}|${one.method}`));
  for (const kind of kinds) {
    const own = series.filter((one) => `${one.cylinder}|${one.method}` === kind && one.tsn_h !== undefined);
    if (own.length < LEAST) continue;
    const [cylinder = "", method = ""] = kind.split("|");
    const found = drift(
      own.map((one) => one.tsn_h ?? 0),
      own.map((one) => one.psi),
      0.95,
      { axis: "hour", reading: "psi" },
    );
    rows.push([
      `cylinder ${cylinder}, ${method}`,
      `${own.map((one) => Number(one.psi.toFixed(1))).join(", ")} psi; ${found.ok ? found.words : found.refused}`,
    ]);
  }
  return rows;
}

function metalRows(ask: Ask, engine: string): Row[] {
  const samples = ask.total(oilSamples, engine).filter((one) => one.sinceChange_h !== undefined);
  const last = samples.at(-1);
  if (!last) return [];
  return Object.entries(last.metals).flatMap(([element, ppm]): Row[] => {
    const rate = (of: number, hours_h: number | undefined): number => of / (hours_h ?? Number.NaN);
    const base = samples.slice(0, -1).flatMap((one) => {
      const then = one.metals[element];
      return then === undefined ? [] : [rate(then, one.sinceChange_h)];
    });
    if (base.length < LEAST) return [];
    const found = deviationFromBase(
      base,
      rate(ppm, last.sinceChange_h),
      `${element} for each hour since the oil change`,
    );
    return [[element, found.ok ? found.words : found.refused]];
  });
}

/** Sections about the trends of an engine; without rows where there is too little to say. No limit is invented. */
export function engineTrends(ask: Ask, engine: string): SummarySection[] {
  return [
    { heading: "Compression over the hours", rows: compressionRows(ask, engine) },
    { heading: "Metals in the oil, last sample against those before", rows: metalRows(ask, engine) },
  ];
}
