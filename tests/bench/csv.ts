/**
 * A data logger's file of a million samples of twelve channels: reading it and all analyses of a run, against reading and splitting the same file.
 * Run as `csv.mjs floor|run FILE` it is one measurement in a process of its own.
 */
import { createReadStream, readFileSync, writeFileSync } from "node:fs";
import type { Result } from "../../server/calc/result.ts";
import { timeInBands } from "../../server/calc/run-bands.ts";
import { openRunLog, type RunLogCsv } from "../../server/calc/run-log-csv.ts";
import { channelPeak, excursions } from "../../server/calc/run-peaks.ts";
import { fastestRates } from "../../server/calc/run-rates.ts";
import { cylinderSpread } from "../../server/calc/run-spread.ts";
import { loadedBeforeWarm, startDelays } from "../../server/calc/run-start.ts";
import { matchRunIn } from "../../server/calc/run-steps.ts";

const HEADINGS = [
  "speed rpm",
  "oil pressure psi",
  "oil temp C",
  ...Array.from({ length: 9 }, (_, i) => `head temp ${i + 1} C`),
];

/** A run of ten samples a second: starts, steps of running-in and stops, with noise and a few bad cells. */
export function writeLog(path: string, rows: number): void {
  let state = 0x2545f491;
  const noise = (): number => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 4_294_967_296 - 0.5;
  };
  const out = [["elapsed s", ...HEADINGS].join(",")];
  for (let row = 0; row < rows; row++) {
    // An hour of running, ten minutes of standing.
    const inCycle_s = (row / 10) % 4_200;
    const running = inCycle_s < 3_600;
    const speed = running ? Math.min(2_200, 700 + inCycle_s * 0.5) + noise() * 20 : 0;
    const warmth = running ? 1 - Math.exp(-inCycle_s / 600) : Math.exp((3_600 - inCycle_s) / 900);
    const cells = [
      (row / 10).toFixed(1),
      speed.toFixed(0),
      (running ? 60 + noise() * 4 : 0).toFixed(1),
      (17 + 63 * warmth + noise()).toFixed(1),
    ];
    for (let head = 0; head < 9; head++) cells.push((17 + (140 + head * 3) * warmth + noise() * 2).toFixed(1));
    if (row % 100_003 === 100_002) cells[4] = "---";
    out.push(cells.join(","));
  }
  writeFileSync(path, `${out.join("\n")}\n`);
}

function need<T>(result: Result<T>, what: string): T {
  if (!result.ok) throw new Error(`${what}: ${JSON.stringify(result)}`);
  return result;
}

function floor(path: string): Record<string, number> {
  const t0 = performance.now();
  const lines = readFileSync(path, "utf8").split("\n");
  let cells = 0;
  for (const line of lines) cells += line.split(",").length;
  return { total: performance.now() - t0, cells };
}

async function read(path: string): Promise<RunLogCsv> {
  const reader = openRunLog({
    time: { header: "elapsed s", kind: "elapsed" },
    channels: HEADINGS.map((header) => ({ header })),
  });
  for await (const piece of createReadStream(path, { highWaterMark: 1 << 20 })) reader.push(piece as Uint8Array);
  return need(reader.end(), "reading the log");
}

async function run(path: string): Promise<Record<string, number>> {
  const t0 = performance.now();
  const log = await read(path);
  const t1 = performance.now();
  const { table } = log;
  const heads = Array.from({ length: 9 }, (_, i) => i + 3);
  need(
    timeInBands(table, 0, [
      { from: 700, until: 900 },
      { from: 1_000, until: 1_400 },
      { from: 1_400, until: 2_300 },
    ]),
    "bands",
  );
  for (let column = 0; column < 12; column++) need(channelPeak(table, column, 5), "peak");
  need(excursions(table, 1, { min: 55, max: 85, while: { column: 0, from: 1_400, until: 2_300 } }), "oil pressure");
  for (const head of heads) {
    need(excursions(table, head, { max: 180 }), "head temperature");
    need(fastestRates(table, head, { coolLimit_perMin: 20 }), "rates");
  }
  need(cylinderSpread(table, heads, { limit: 30, while: { column: 0, from: 1_000, until: 2_300 } }), "spread");
  need(startDelays(table, 0, 400, 1, 40, 30), "starts");
  need(loadedBeforeWarm(table, 0, 1_200, 2, 40), "loaded cold");
  need(
    matchRunIn(table, 0, [
      { name: "1", least_s: 300, from_rpm: 700, until_rpm: 1_000 },
      { name: "2", least_s: 600, from_rpm: 1_000, until_rpm: 1_500 },
    ]),
    "run-in",
  );
  return {
    total: performance.now() - t0,
    reading: t1 - t0,
    analyses: performance.now() - t1,
    rows: log.rows,
    bad: log.badCount,
  };
}

const [mode, path] = process.argv.slice(2);
if (path !== undefined && (mode === "floor" || mode === "run")) {
  const figures = mode === "floor" ? floor(path) : await run(path);
  console.log(JSON.stringify({ ...figures, rss_MB: process.resourceUsage().maxRSS / 1024 }));
}
