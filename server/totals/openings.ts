/** What was opened and whether it was closed again; what was refused and whether it was answered. */
import type { Ask, Total } from "../checking/ask.ts";
import { qualify } from "../facts/refs.ts";
import type { At } from "../facts/types.ts";
import type { CivilDate } from "../quantity/civil-date.ts";
import { orderOfWork } from "./place-events.ts";

export interface Moment {
  readonly ref: string;
  readonly at: At;
  readonly date: CivilDate | undefined;
  /** Position among the blocks of work of the scope. */
  readonly order: number;
}

/** Whether one line stands after another: in a later block, or below it in the same one. */
export function isLater(one: Pick<Moment, "order" | "at">, other: Pick<Moment, "order" | "at">): boolean {
  return one.order > other.order || (one.order === other.order && one.at > other.at);
}

/** From one opening to the closing that ends it. */
export interface Opening {
  readonly what: string;
  readonly opened: Moment;
  readonly closed: Moment | undefined;
}

/** Key: a job's name, or `engine:NAME`. Opened twice without a closing between counts from the first. */
export const openings: Total<readonly Opening[]> = {
  name: "openings",
  compute(scope: string, ask: Ask): readonly Opening[] {
    const lines = ask.facts(scope, "openCloses");
    if (lines.length === 0) return [];
    const order = orderOfWork(scope, ask);
    const found: { what: string; opened: Moment; closed: Moment | undefined }[] = [];
    for (const { block, fact } of lines) {
      const moment: Moment = { ref: block.ref, at: fact.at, date: block.date, order: order.get(block.ref) ?? 0 };
      const open = found.find((one) => one.what === fact.what && one.closed === undefined);
      if (!fact.opens) {
        if (open) open.closed = moment;
      } else if (!open) found.push({ what: fact.what, opened: moment, closed: undefined });
    }
    return found;
  },
};

export interface Refusal extends Moment {
  readonly role: string;
  readonly by: string;
  readonly on: CivilDate;
  /** The block that was not signed, in full. */
  readonly of: string;
  readonly reason: string;
  /** Where it was answered: an `answer` line, or the same person's later signature. */
  readonly answered: string;
}

/** Key: a job's name, or `engine:NAME`. A signature by someone else is no answer. */
export const refusals: Total<readonly Refusal[]> = {
  name: "refusals",
  compute(scope: string, ask: Ask): readonly Refusal[] {
    const lines = ask.facts(scope, "refuses");
    if (lines.length === 0) return [];
    const order = orderOfWork(scope, ask);
    const moment = (block: { readonly ref: string; readonly date: CivilDate | undefined }, at: At): Moment => ({
      ref: block.ref,
      at,
      date: block.date,
      order: order.get(block.ref) ?? 0,
    });
    const answers = ask
      .facts(scope, "answers")
      .map(({ block, fact }) => ({ of: qualify(scope, fact.ref), where: moment(block, fact.at) }));
    const signs = ask.facts(scope, "signs");
    return lines.map(({ block, fact }): Refusal => {
      const here = moment(block, fact.at);
      const of = qualify(scope, fact.ref);
      const answer = answers.find((one) => one.of === of && isLater(one.where, here));
      const sign = signs.find(
        (one) =>
          one.block.ref === of && one.fact.person === fact.by && one.fact.role === fact.role && one.fact.on >= fact.on,
      );
      return {
        ...here,
        role: fact.role,
        by: fact.by,
        on: fact.on,
        of,
        reason: fact.reason,
        answered: answer?.where.ref ?? sign?.block.ref ?? "",
      };
    });
  },
};
