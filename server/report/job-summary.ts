/** A job at a glance: its route, what of it is measured, torqued, checked and signed, labour and cost, run time, what is open. */
import type { Ask } from "../checking/ask.ts";
import { placeText } from "../facts/place.ts";
import { shortRef } from "../facts/refs.ts";
import { formatDate } from "../quantity/civil-date.ts";
import { coverage } from "../totals/coverage.ts";
import { jobContext } from "../totals/job-context.ts";
import { type JobSummary, jobSummary } from "../totals/job-summary.ts";
import { routeProgress } from "../totals/route-progress.ts";
import { runIn } from "../totals/run-in-state.ts";
import { torqueCoverage } from "../totals/torque-coverage.ts";
import type { Summary } from "./summary.ts";
import { count, duration, few, type Row, said, share } from "./wording.ts";

function routeRows(scope: string, ask: Ask): Row[] {
  const { route, steps, stepsDone, next } = ask.total(routeProgress, scope);
  if (route === "") return [["", "The job names no route."]];
  const step = steps.find((one) => one.name === next);
  const wants = step?.needs.filter((need) => !need.met) ?? [];
  return said(
    ["steps done", share(stepsDone, steps.length)],
    step && ["next", `${step.name}${step.started ? ", begun" : ""}`],
    step && wants.length > 0 && [`${step.name} still needs`, few(wants.map((need) => need.text))],
  );
}

function coverageRows(scope: string, summary: JobSummary, ask: Ask): Row[] {
  const places = ask.total(coverage, scope);
  const torques = ask.total(torqueCoverage, scope);
  const isOut = places.lines.reduce((sum, line) => sum + line.isOut, 0);
  const unmeasured = places.lines.filter((line) => line.missing.length + line.todo.length + line.again.length > 0);
  const checks = ask.facts(scope, "checks");
  const faults = checks.filter(({ fact }) => !fact.ok).length;
  const unlocked = torques.lines.reduce((sum, line) => sum + line.unlocked.length, 0);
  const again = torques.lines.reduce((sum, line) => sum + line.retorque.length, 0);
  return said(
    places.limitsRef === ""
      ? ["limits", "none are known for this job"]
      : ["limits", places.limitsRef.replace(/^limits\//u, "").replace("/", " revision ")],
    places.expected > 0 && [
      "places measured",
      [
        share(places.measured, places.expected),
        places.todo > 0 && `${places.todo} still to be taken`,
        places.again > 0 && `${places.again} to be measured again`,
        isOut > 0 && `${isOut} out of limit`,
      ]
        .filter(Boolean)
        .join(", "),
    ],
    unmeasured.length > 0 && [
      "not yet measured",
      few(unmeasured.map((line) => `${line.feature} (${line.missing.length + line.todo.length + line.again.length})`)),
    ],
    torques.expected > 0 && ["torques", share(torques.torqued, torques.expected)],
    unlocked > 0 && ["to be locked", count(unlocked, "fastener")],
    again > 0 && ["to be torqued again after the run", count(again, "fastener")],
    ["checks", checks.length === 0 ? "" : `${checks.length}${faults > 0 ? `, ${faults} with a fault` : ""}`],
    ["photos", summary.photos === 0 ? "" : String(summary.photos)],
    ["signatures", few(summary.signs.map((sign) => `${sign.role} ${sign.person} ${sign.count}`))],
  );
}

function labourRows(scope: string, summary: JobSummary, ask: Ask): Row[] {
  const schedule = ask.total(runIn, scope);
  const byPerson = new Map<string, number>();
  for (const { person, time_s } of summary.labour) byPerson.set(person, (byPerson.get(person) ?? 0) + time_s);
  const people = [...byPerson].map(([person, time_s]) => `${person} ${duration(time_s)}`);
  return said(
    summary.labour_s > 0 && ["labour", `${duration(summary.labour_s)} (${few(people)})`],
    ...summary.money.map(
      (sum): Row => ["cost", `${sum.total} ${sum.currency} (labour ${sum.labour}, other ${sum.other})`],
    ),
    summary.money.length > 0 && summary.unrated_s > 0 && ["without a rate", duration(summary.unrated_s)],
    summary.runs > 0 && [
      "run time",
      `${duration(summary.run_s)} in ${count(summary.runs, "run")}${summary.runsUnknown > 0 ? `, ${summary.runsUnknown} of unknown length` : ""}`,
    ],
    schedule && [
      `running-in ${schedule.schedule}`,
      `${share(schedule.steps.filter((step) => step.verdict === "done").length, schedule.steps.length)} steps met`,
    ],
  );
}

function openRows(scope: string, summary: JobSummary, ask: Ask): Row[] {
  const { defects } = summary;
  const { steps } = ask.total(routeProgress, scope);
  // A step that was begun and left behind; the next one is said above.
  const behind = steps.filter(
    (step) => step.started && !step.done && steps.some((later) => later.started && later.after.includes(step.name)),
  );
  const places = ask.total(coverage, scope);
  const again = places.lines.flatMap((line) => line.again.map((path) => placeText(line.feature, path)));
  return said(
    ["defects open", few(defects.open)],
    ["deferred", few(defects.deferred)],
    ["conceded", few(defects.conceded)],
    ["opened, not closed", few(summary.stillOpen.map((one) => `${one.what} (${shortRef(one.ref)})`))],
    ["refused, not answered", few(summary.refused.map((one) => `${one.role} ${one.by} on ${shortRef(one.of)}`))],
    summary.unsigned > 0 && ["blocks that want a signature", String(summary.unsigned)],
    ["to be measured again", few(again)],
    [
      "steps left open",
      few(
        behind.map(
          (step) =>
            `${step.name} (${few(
              step.needs.filter((need) => !need.met).map((need) => need.text),
              3,
            )})`,
        ),
      ),
    ],
  );
}

/**
 * Sums about one job.
 * @param name of the job
 * @returns undefined when no block declares it
 */
export function jobSummaryOf(ask: Ask, name: string): Summary | undefined {
  const job = ask.job(name);
  if (!job) return undefined;
  const context = ask.total(jobContext, name);
  const summary = ask.total(jobSummary, name);
  const open = openRows(name, summary, ask);
  const on = [context.engine, context.type].filter((text) => text !== "").join(", ");
  return {
    title: `Job ${name}${on === "" ? "" : ` on ${on}`}`,
    sections: [
      {
        heading: "",
        rows: said(
          ["scope", job.scope],
          ["received", job.received ? formatDate(job.received.on) : ""],
          summary.dispatched === undefined && ["wanted by", job.wanted === undefined ? "" : formatDate(job.wanted)],
          ["released", summary.released === undefined ? "" : formatDate(summary.released)],
          ["left the shop", summary.dispatched === undefined ? "" : formatDate(summary.dispatched)],
        ),
      },
      { heading: job.route === "" ? "Route" : `Route ${job.route}`, rows: routeRows(name, ask) },
      { heading: "Coverage", rows: coverageRows(name, summary, ask) },
      { heading: "Labour, cost and running", rows: labourRows(name, summary, ask) },
      { heading: "Open items", rows: open.length === 0 ? [["", "none"]] : open },
    ],
  };
}
