/**
 * `npm run bench [-- SIZES | csv]`: measures the checker on shops of 10,000, 100,000 and 1,000,000 lines and prints one table.
 *
 * Every measurement is a fresh process, made in turn with the floor, so that a slow moment of the machine meets both; medians of several runs, and ratios
 * of the runs that belong together. Figures are reported, never asserted: it ends with 1 only when something could not be measured.
 */
import { spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, openSync, writeFileSync } from "node:fs";
import { cpus } from "node:os";
import { join } from "node:path";
import { build } from "esbuild";
import { writeLog } from "./csv.ts";
import { median, printTable, type Row, timed } from "./figures.ts";
import { generateShop, SAMPLES, writeShop } from "./shop-generator.ts";
import { stdioRows } from "./stdio.ts";

const ROOT = join(import.meta.dirname, "../..");
const WORK = join(ROOT, ".bench");
const BIN = join(WORK, "bin");
const DIST = join(WORK, "dist");
const DAY = "2026-05-02";
const say = (text: string): void => void process.stderr.write(`${text}\n`);
const unmeasured: string[] = [];

type Figures = Record<string, number>;

/** One measurement in a process of its own. @throws Error with what it said when it failed */
function child(program: string, args: readonly string[], flags: readonly string[] = []): Figures {
  const done = spawnSync(process.execPath, [...flags, join(BIN, program), ...args], {
    encoding: "utf8",
    maxBuffer: 1 << 26,
  });
  if (done.status !== 0)
    throw new Error(
      `${program} ${args.join(" ")}: ${done.stderr.trim().split("\n").slice(-6).join("\n") || done.signal}`,
    );
  return JSON.parse(done.stdout.trim().split("\n").at(-1) as string) as Figures;
}

/** Milliseconds that a whole process took. @throws Error when it ended with another code than those allowed */
function whole(args: readonly string[], allowed: readonly number[]): number {
  const sink = openSync("/dev/null", "w");
  const from = performance.now();
  const done = spawnSync(process.execPath, [...args], { stdio: ["ignore", sink, "pipe"], cwd: ROOT });
  const took = performance.now() - from;
  if (done.status === null || !allowed.includes(done.status))
    throw new Error(`${args.join(" ")} ended with ${done.status ?? done.signal}: ${String(done.stderr).slice(-400)}`);
  return took;
}

async function measure(what: string, rows: Row[], run: () => Promise<Row[]> | Row[]): Promise<void> {
  say(`measuring ${what}`);
  try {
    rows.push(...(await run()));
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    unmeasured.push(`${what}: ${reason}`);
    say(`  could not be measured: ${reason}`);
  }
}

async function prepare(takeBuilt: boolean): Promise<void> {
  mkdirSync(BIN, { recursive: true });
  if (!takeBuilt || !existsSync(join(ROOT, "dist/cli.mjs"))) {
    const built = spawnSync(process.execPath, [join(ROOT, "client/build.mjs")], {
      stdio: ["ignore", "ignore", "inherit"],
      cwd: ROOT,
    });
    if (built.status !== 0) throw new Error("the build failed");
  }
  // What is measured stays the same while sources go on changing.
  cpSync(join(ROOT, "dist"), DIST, { recursive: true, force: true });
  await build({
    absWorkingDir: ROOT,
    entryPoints: ["child", "floor", "csv", "echo-server"].map((name) => `tests/bench/${name}.ts`),
    outdir: BIN,
    outExtension: { ".js": ".mjs" },
    bundle: true,
    platform: "node",
    format: "esm",
    target: "node24",
    logLevel: "error",
    banner: { js: 'import { createRequire as __cr } from "node:module"; const require = __cr(import.meta.url);' },
  });
}

function shopFolder(lines: number, files: number, faulty = true): string {
  const folder = join(WORK, `shop-${lines}-${files}`);
  writeShop(generateShop(lines, files, { faulty }), folder);
  return folder;
}

const CLI = (folder: string): string[] => [join(DIST, "cli.mjs"), "check", folder, "--as-of", DAY];

/** All phases of one size, and the whole command. @returns the figures of the whole command for the growth */
function sizeRows(
  lines: number,
  files: number,
  runs: number,
  rows: Row[],
  note: string,
): { perLine: number; floorPerLine: number } {
  const folder = shopFolder(lines, files);
  const outBytes = spawnSync(process.execPath, CLI(folder), { encoding: "utf8", maxBuffer: 1 << 30, cwd: ROOT }).stdout
    .length;
  const took: Record<string, Figures[]> = { floor: [], parse: [], check: [], record: [] };
  const command: number[] = [];
  const process_: number[] = [];
  for (let i = 0; i < runs; i++) {
    for (const mode of Object.keys(took)) took[mode]?.push(child("child.mjs", [mode, folder]));
    process_.push(whole([join(BIN, "floor.mjs"), folder, String(outBytes), "alone"], [0]));
    command.push(whole(CLI(folder), [0, 1]));
  }
  const of = (mode: string, name = "total"): number[] => (took[mode] ?? []).map((one) => one[name]);
  const floors = of("floor");
  const count = of("floor", "lines")[0];
  const large = lines >= 1_000_000;
  const findings = took["check"]?.[0]?.["findings"] ?? Number.NaN;
  say(
    `  ${note}: ${count} lines, ${findings} findings, ${took["check"]?.[0]?.["ruleCalls"]} rule calls, ${outBytes} bytes of output`,
  );
  rows.push(timed(`${note}: floor in process (read, split, parse numbers)`, floors, floors));
  rows.push(timed(`${note}: parse only (scan, plan)`, of("parse"), floors));
  for (const phase of ["read", "facts", "index", "sweep", "output"])
    rows.push(timed(`${note}:   phase ${phase}`, of("check", phase), floors));
  rows.push(timed(`${note}: full check in process, one pass`, of("check"), floors));
  rows.push(
    timed(
      `${note}: first sweep of the server (questions recorded)`,
      of("record"),
      floors,
      large ? { first: 4 } : undefined,
    ),
  );
  rows.push(timed(`${note}: floor, whole process`, process_, process_));
  rows.push(
    timed(`${note}: gudgeon check, whole process`, command, process_, large ? { first: 4, later: 2 } : undefined),
  );
  const rss = of("check", "rss_MB");
  rows.push({
    what: `${note}: resident memory of the check`,
    figure: `${median(rss).toFixed(0)} MB`,
    spread: `${Math.min(...rss).toFixed(0)}..${Math.max(...rss).toFixed(0)}`,
    ...(large ? { held: median(rss), target: { first: 400, unit: " MB" } } : {}),
  });
  return { perLine: median(of("check").map((value) => value / count)), floorPerLine: median(floors) / count };
}

function memoryRows(lines: number, files: number): Row[] {
  const folder = shopFolder(lines, files);
  return ["one-pass", "recording"].map((how) => {
    const { perLine = Number.NaN, rss_MB = Number.NaN } = child("child.mjs", ["memory", folder, how], ["--expose-gc"]);
    return {
      what: `live memory a line at ${lines} lines, text included, ${how}`,
      figure: `${perLine.toFixed(0)} B`,
      spread: `RSS ${rss_MB.toFixed(0)} MB`,
      held: perLine,
      ...(how === "recording" ? { target: { first: 400, unit: " B" } } : {}),
    };
  });
}

function keyRows(lines: number): Row[] {
  const folder = shopFolder(lines, 1, false);
  const found = [0, 1, 2].map(() => child("child.mjs", ["keys", folder]));
  const of = (name: string): number[] => found.map((one) => one[name]);
  const { findings, callsPerKey, differences } = found[0];
  if (differences !== 0) throw new Error(`after the keystrokes ${differences} findings differ from a fresh run`);
  const note = `keystroke to findings in process, ${of("lines")[0]} lines, ${findings} findings`;
  const each = (["p50", "p95", "p99"] as const).map((name) => timed(`${note}: ${name}`, of(name)));
  each.push({ what: `${note}: rule calls`, figure: callsPerKey.toFixed(1), spread: "" });
  return each;
}

function startRows(): Row[] {
  const folder = shopFolder(1_000, 8, false);
  const bare: number[] = [];
  const command: number[] = [];
  for (let i = 0; i < 21; i++) {
    bare.push(whole(["-e", "0"], [0]));
    command.push(whole(CLI(folder), [0, 1]));
  }
  return [
    timed("start-up: node -e 0", bare, bare),
    timed("start-up: gudgeon check on 1,000 lines", command, bare, { first: 2.5, later: 1.5 }),
  ];
}

function shapeRows(folders: readonly (readonly [string, string])[]): Row[] {
  return folders.map(([what, folder]) => {
    const { asked = 0, missed = 0, missedFromNothing = 0 } = child("child.mjs", ["shapes", folder]);
    const share = (count: number): string => `${((100 * count) / asked).toFixed(2)} %`;
    return {
      what: `shape cache misses, ${what}`,
      figure: share(missed),
      spread: `${missed} of ${asked}; without shipped plans ${share(missedFromNothing)}`,
    };
  });
}

function csvRows(): Row[] {
  const path = join(WORK, "log.csv");
  writeLog(path, 1_000_000);
  const floors: Figures[] = [];
  const runs: Figures[] = [];
  for (let i = 0; i < 5; i++) {
    floors.push(child("csv.mjs", ["floor", path]));
    runs.push(child("csv.mjs", ["run", path]));
  }
  const of = (from: readonly Figures[], name: string): number[] => from.map((one) => one[name]);
  const floor = of(floors, "total");
  const total = of(runs, "total");
  const rss = of(runs, "rss_MB");
  return [
    timed("log of 1,000,000 samples, 12 channels: read and split (floor)", floor, floor),
    timed("log: reading into columns", of(runs, "reading"), floor),
    timed("log: all analyses of a run", of(runs, "analyses"), floor),
    {
      ...timed("log: reading and analyses", total, floor),
      held: median(total) / 1000,
      target: { first: 3, unit: " s" },
    },
    {
      what: "log: resident memory",
      figure: `${median(rss).toFixed(0)} MB`,
      spread: `${Math.min(...rss).toFixed(0)}..${Math.max(...rss).toFixed(0)}`,
      held: median(rss),
      target: { first: 400, unit: " MB" },
    },
  ];
}

const args = process.argv.slice(2);
const sizes = args.filter((arg) => /^\d+$/u.test(arg)).map(Number);
const only = args.filter((arg) => /^[a-z]+$/u.test(arg));
const unknown = args.filter(
  (arg) =>
    !/^\d+$/u.test(arg) &&
    arg !== "--built" &&
    !["check", "memory", "keys", "stdio", "start", "shapes", "csv"].includes(arg),
);
if (unknown.length > 0) {
  console.error(
    `usage: npm run bench [-- SIZE... check memory keys stdio start shapes csv --built]; not understood: ${unknown.join(" ")}`,
  );
  process.exit(1);
}
const wants = (part: string): boolean =>
  only.length === 0 ? part !== "csv" || sizes.length === 0 : only.includes(part);
const all = sizes.length > 0 ? sizes : [10_000, 100_000, 1_000_000];
const filesFor = (lines: number): number => Math.max(10, Math.round(lines / 1000));
const rows: Row[] = [];
await prepare(args.includes("--built"));

const perLine = new Map<number, { perLine: number; floorPerLine: number }>();
for (const size of wants("check") ? all : []) {
  await measure(`a shop of ${size} lines`, rows, () => {
    const made: Row[] = [];
    perLine.set(size, sizeRows(size, filesFor(size), size >= 1_000_000 ? 3 : 5, made, `${size / 1000}k`));
    return made;
  });
}
const [small, large] = [perLine.get(100_000), perLine.get(1_000_000)];
if (small && large) {
  const growth = large.perLine / small.perLine;
  rows.push({
    what: "growth: a line of 1,000,000 against one of 100,000, full check",
    figure: growth.toFixed(2),
    spread: `floor ${(large.floorPerLine / small.floorPerLine).toFixed(2)}`,
    ratio: growth,
    target: { first: 1.15 },
  });
}
if (wants("check") && sizes.length === 0) {
  await measure("1,000 small files", rows, () => {
    const made: Row[] = [];
    sizeRows(20_000, 1_000, 3, made, "small files");
    return made;
  });
}
if (wants("memory")) await measure("memory", rows, () => memoryRows(Math.min(100_000, Math.max(...all)), 100));
if (wants("keys")) {
  await measure("keystrokes in process", rows, () => keyRows(10_000));
  if (all.some((size) => size >= 100_000)) await measure("keystrokes in a long record", rows, () => keyRows(100_000));
}
if (wants("stdio")) {
  await measure("keystrokes over stdio", rows, () =>
    stdioRows({
      server: join(DIST, "server-node.cjs"),
      echo: join(BIN, "echo-server.mjs"),
      work: WORK,
      folder: shopFolder(10_000, 1, false),
      asOf: DAY,
    }),
  );
}
if (wants("start")) await measure("start-up", rows, startRows);
if (wants("shapes")) {
  await measure("the shape cache", rows, () =>
    shapeRows([
      ["clean sample", join(SAMPLES, "clean")],
      ["faulty sample", join(SAMPLES, "faulty")],
      ["generated shop of 20,000 lines", shopFolder(20_000, 20)],
    ]),
  );
}
if (wants("csv")) await measure("a logger's file", rows, csvRows);

const machine = `${cpus().length} cores, ${cpus()[0]?.model ?? "unknown"}, Node ${process.versions.node}, ${new Date().toISOString().slice(0, 16)}Z`;
printTable(`Gudgeon, measured on ${machine}. Compare ratios, not times.`, rows);
writeFileSync(join(WORK, "last.json"), JSON.stringify({ machine, rows }, null, 2));
for (const one of unmeasured) console.error(`could not be measured: ${one}`);
process.exitCode = unmeasured.length > 0 ? 1 : 0;
