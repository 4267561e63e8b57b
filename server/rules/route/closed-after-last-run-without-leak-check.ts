import { mayBeUnread } from "../../totals/later-steps.ts";
import { isLater } from "../../totals/openings.ts";
import { orderOfWork } from "../../totals/place-events.ts";
import { routeSteps } from "../../totals/route-steps.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly what: readonly string[];
  readonly run: string;
  readonly passed: string;
}

const SHOP = `${JOB}run R1 2026-04-11 job J26-014 by ATH\nentry E1 2026-04-15 close job J26-014\n  open gear-case\n  close gear-case\n`;

export default rule<"entry", Found>({
  id: "route/closed-after-last-run-without-leak-check",
  severity: "error",
  on: ["entry"],
  reads: ["openCloses"],
  page: {
    what: "Something was closed after the last run, and no `check leak-check ok` stands below it. It is work to do until the job is released, then an error.",
    why: "The run showed that the joints hold. A joint made after it has held nothing yet.",
    remedy: "Check it for leaks, under pressure or in a short run, and record `check leak-check ok`.",
    faulty: [{ text: SHOP }],
    sound: [{ text: `${SHOP}  check leak-check ok "Pressure oiler 60 psi, ten minutes, dry"\n` }],
  },
  check(block, ask, report) {
    if (block.job === "" || !block.openCloses.some((line) => !line.opens)) return;
    const work = ask.work(block.job);
    const lastRun = work.findLastIndex((head) => head.kind === "run");
    if (lastRun < 0) return;
    const steps = ask.total(routeSteps, block.job);
    // What is closed after the release is the crate's business.
    const end = steps.release?.order ?? Number.POSITIVE_INFINITY;
    const order = orderOfWork(block.job, ask);
    const moment = (one: { readonly block: { readonly ref: string }; readonly fact: { readonly at: number } }) => ({
      order: order.get(one.block.ref) ?? 0,
      at: one.fact.at,
    });
    const checks = ask
      .facts(block.job, "checks")
      .filter((one) => one.fact.name === "leak-check" && one.fact.ok)
      .map(moment);
    const closings = ask.facts(block.job, "openCloses").filter((one) => {
      const when = moment(one);
      return (
        !one.fact.opens && when.order > lastRun && when.order < end && !checks.some((check) => isLater(check, when))
      );
    });
    // Said once, at the last of them.
    const last = closings.at(-1);
    if (!last || last.block.ref !== block.ref || mayBeUnread(block.job, "", ["check"], ask)) return;
    report(
      { at: last.fact.at, role: "what" },
      {
        what: [...new Set(closings.map((one) => one.fact.what))],
        run: work[lastRun]?.name ?? "",
        passed: steps.release ? "release" : "",
      },
      {
        severity: steps.release ? "error" : "hint",
        related: [{ ref: work[lastRun]?.ref ?? "", spot: { at: 0 }, says: "The last run" }],
      },
    );
  },
  say: ({ what, run, passed }) =>
    `${what.join(", ")} ${what.length === 1 ? "was" : "were"} closed after the last run (${run}) with no leak check since${passed === "" ? "" : ", and the job is released"}. The joint has held nothing yet: check it and record check leak-check ok.`,
});
