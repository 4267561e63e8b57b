import { readdirSync } from "node:fs";
import type { CheckModule, PublishedCheck, UncheckedComputation } from "./check.ts";

const folder = new URL("./", import.meta.url);
const calcFolder = new URL("../../../server/calc/", import.meta.url);

/** Files of server/calc that hold no computation of the trade: shapes, writing of figures, tables, plain mathematics. */
const notComputations = new Set(["result", "figures"]);

export interface Collected {
  checks: PublishedCheck[];
  unchecked: UncheckedComputation[];
  /** Computations (file names) that no module of the folder mentions. */
  silent: string[];
}

function isCheckModule(module: object): module is CheckModule {
  return "checks" in module && Array.isArray(module.checks);
}

/** Loads every module of this folder that exports checks, in order of file name. */
export async function collectChecks(): Promise<Collected> {
  const checks: PublishedCheck[] = [];
  const unchecked: UncheckedComputation[] = [];
  const names = readdirSync(folder)
    .filter((name) => name.endsWith(".ts") && !name.endsWith(".test.ts"))
    .filter((name) => !["check.ts", "collect.ts", "print.ts"].includes(name))
    .sort();
  for (const name of names) {
    const module: object = await import(new URL(name, folder).href);
    if (!isCheckModule(module)) throw new Error(`${name} exports no checks`);
    checks.push(...module.checks);
    unchecked.push(...(module.unchecked ?? []));
  }
  const mentioned = new Set([...checks, ...unchecked].map((item) => item.computation));
  const silent = readdirSync(calcFolder)
    .filter((name) => name.endsWith(".ts"))
    .map((name) => name.slice(0, -".ts".length))
    .filter((name) => !notComputations.has(name) && !name.endsWith("-tables") && !mentioned.has(name))
    .sort();
  return { checks, unchecked, silent };
}
