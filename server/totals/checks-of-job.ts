/** When a job's engine was last run or filled, and when a check was last made: what decides whether a check still tells the state of the engine. */
import type { Ask } from "../checking/ask.ts";
import type { CheckLine } from "../facts/types.ts";
import { isLater, type Moment } from "./openings.ts";
import { orderOfWork } from "./place-events.ts";

/** The last line of a job by which oil or fuel came into the engine: a run, oil filled or added. A run counts as later than all its lines. */
export function lastWet(job: string, ask: Ask): (Moment & { readonly what: "run" | "oil" }) | undefined {
  const order = orderOfWork(job, ask);
  let last: (Moment & { readonly what: "run" | "oil" }) | undefined;
  const offer = (moment: Moment & { readonly what: "run" | "oil" }): void => {
    if (!last || isLater(moment, last)) last = moment;
  };
  for (const head of ask.work(job))
    if (head.kind === "run")
      offer({ ref: head.ref, at: 0, date: head.date, order: (order.get(head.ref) ?? 0) + 0.5, what: "run" });
  for (const { block, fact } of ask.facts(job, "oils")) {
    if (fact.what !== "drained")
      offer({ ref: block.ref, at: fact.at, date: block.date, order: order.get(block.ref) ?? 0, what: "oil" });
  }
  return last;
}

export interface CheckMoment extends Moment {
  readonly name: string;
  readonly ok: CheckLine["ok"];
}

/** The last check of a job that goes by one of the names. */
export function lastCheck(job: string, names: readonly string[], ask: Ask): CheckMoment | undefined {
  const order = orderOfWork(job, ask);
  let last: CheckMoment | undefined;
  for (const { block, fact } of ask.facts(job, "checks")) {
    if (!names.includes(fact.name)) continue;
    const moment = {
      ref: block.ref,
      at: fact.at,
      date: block.date,
      order: order.get(block.ref) ?? 0,
      name: fact.name,
      ok: fact.ok,
    };
    if (!last || isLater(moment, last)) last = moment;
  }
  return last;
}
