/** More oil used than the limits allow, in one run or over the runs of a job. */
import { show } from "../../calc/figures.ts";
import { isConceded } from "../../totals/later-work.ts";
import { CONSUMPTION, oilLimit, oilOfJob, oilOfRun } from "../../totals/oil-use.ts";
import { limitsOfJob } from "../../totals/run-context.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly run: string;
  readonly used_L: number;
  readonly rate_Lph: number;
  readonly rate_usqtph: number;
  readonly greatest_Lph: number;
  readonly source: string;
  /** Runs that are summed; one for a run alone. */
  readonly runs: readonly string[];
  /** Why no rate is stated, as a sentence; "" where there is one. */
  readonly why: string;
}

const SHOP = `limits Curlew-9 revision C from 2025-11-01
  limit oil.consumption max 0.50 L/h ref "7-3"
engine C9-0412 Curlew-9
job J1 engine C9-0412 limits C
run R1 2026-04-11 job J1 by ATH second RPE
  log time crank.speed/rpm
  10:00 800
  11:00 800
  oil added 0.6 L
`;

export default rule({
  id: "run/oil-consumption",
  severity: "warning",
  on: ["run"],
  reads: ["oils"],
  page: {
    what: "The oil added less the oil drained, over the running time of the run or of the runs of the job so far, is more than the limit `oil.consumption` of the revision; or more came out than went in. The level is taken to be at the same mark before and after.",
    why: "Oil that is used comes past rings and guides or leaves by a leak, and new rings that never bed in show it first. More oil out than in is a wrong figure, or fuel or water in the oil.",
    remedy:
      "Check marks and figures, look for leaks, test the compression, and run again. Rings that are not bedded in use more at first: the limit and what it asks for are the maker's.",
    faulty: [{ text: SHOP }],
    sound: [{ text: SHOP.replace("added 0.6 L", "added 0.5 L") }],
  },
  check(run, ask, report) {
    const limits = limitsOfJob(ask, run.job);
    const [oil] = run.oils;
    const limit = oilLimit(limits);
    if (!limits || !oil || isConceded(ask, run.job, run.ref, CONSUMPTION, "")) return;
    const own = oilOfRun(ask, run);
    const all = oilOfJob(ask, run);
    const related = limit ? [{ ref: limits.ref, spot: { at: limit.line.at }, says: `the limit: ${limit.source}` }] : [];
    const base = { run: run.name, greatest_Lph: limit?.greatest_Lph ?? 0, source: limit?.source ?? "" };
    if (!own.ok && own.refused.includes("more oil came out"))
      report(
        { at: oil.at, role: "value" },
        { ...base, used_L: 0, rate_Lph: 0, rate_usqtph: 0, runs: [run.name], why: own.refused },
        { place: CONSUMPTION },
      );
    const worst =
      own.ok && own.within === false ? { ...own, runs: [run.name] } : all.ok && all.within === false ? all : undefined;
    if (!worst) return;
    const { used_L, rate_Lph, rate_usqtph, runs } = worst;
    report(
      { at: oil.at, role: "value" },
      { ...base, used_L, rate_Lph, rate_usqtph, runs, why: "" },
      { place: CONSUMPTION, related },
    );
  },
  say: (d: Data) =>
    d.why === ""
      ? `${d.runs.length > 1 ? `Over ${d.runs.join(", ")} the engine` : `In ${d.run} the engine`} used ${show(d.used_L, 3)} L of oil, ${show(d.rate_Lph, 3)} L/h (${show(d.rate_usqtph, 3)} US qt/h); the limit of ${d.source} is ${show(d.greatest_Lph, 3)} L/h. Look for leaks and at the compression, and run again.`
      : `No oil consumption is stated for ${d.run}. ${d.why}`,
});
