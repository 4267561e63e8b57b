/**
 * A job at a glance: labour by person and by work, what it cost, how long the engine ran, what is open, who signed.
 *
 * Costs are worked out exactly, from the hours as written and the rates of the job's `account`; a kind of work without a rate of its own takes the plain
 * one. Labour for which there is no rate is counted apart, never as nothing.
 */
import type { Ask, Total } from "../checking/ask.ts";
import type { At } from "../facts/types.ts";
import type { CivilDate } from "../quantity/civil-date.ts";
import { exactIn, type Measure } from "../quantity/compare.ts";
import { exact } from "../quantity/decimal.ts";
import { formatExact } from "../quantity/format.ts";
import { findUnit } from "../quantity/units.ts";
import { type DefectState, defectStates } from "./defect-states.ts";
import { openings, refusals } from "./openings.ts";
import { routeSteps } from "./route-steps.ts";
import { runTime } from "./run-summary.ts";

export interface LabourSum {
  readonly person: string;
  /** Kind of work as written, `inspect`; `""` where none is. */
  readonly work: string;
  /** Seconds. */
  readonly time_s: number;
}

/** An amount of money, with two decimals. */
export interface MoneySum {
  readonly currency: string;
  readonly labour: string;
  readonly other: string;
  readonly total: string;
}

export interface SignatureSum {
  readonly role: string;
  readonly person: string;
  readonly count: number;
  readonly last: CivilDate;
}

export interface JobSummary {
  readonly scope: string;
  readonly labour: readonly LabourSum[];
  readonly labour_s: number;
  /** Labour without a rate: seconds. */
  readonly unrated_s: number;
  /** One for each currency; empty without an account. */
  readonly money: readonly MoneySum[];
  readonly runs: number;
  /** Seconds that the engine ran, over the runs whose logs show it. */
  readonly run_s: number;
  readonly runsUnknown: number;
  readonly entries: number;
  readonly photos: number;
  readonly defects: {
    readonly open: readonly string[];
    readonly rectified: number;
    readonly deferred: readonly string[];
    readonly conceded: readonly string[];
  };
  /** Opened and not closed. */
  readonly stillOpen: readonly { readonly what: string; readonly ref: string; readonly at: At }[];
  /** Refused and not answered. */
  readonly refused: readonly {
    readonly role: string;
    readonly by: string;
    readonly of: string;
    readonly ref: string;
    readonly at: At;
  }[];
  readonly signs: readonly SignatureSum[];
  /** Blocks that want a signature. */
  readonly unsigned: number;
  readonly firstDay: CivilDate | undefined;
  readonly lastDay: CivilDate | undefined;
  readonly released: CivilDate | undefined;
  readonly dispatched: CivilDate | undefined;
}

/** An exact rational number. */
type Fraction = ReturnType<typeof exact>;

const ZERO = exact("0");
const second = findUnit("s");

/** Seconds, exactly. */
function seconds(value: Measure): Fraction {
  return second && value.unit.dimension === "time" ? exactIn(value, second) : ZERO;
}

/** `GBP` of the dimension of `48.00 GBP/h` or `410.00 GBP`; `""` for anything else. */
function currencyOf(value: Measure): string {
  return /^money:([A-Z]{3})(?:\/time)?$/u.exec(value.unit.dimension)?.[1] ?? "";
}

interface Purse {
  labour: Fraction;
  other: Fraction;
}

class Purses {
  readonly #purses = new Map<string, Purse>();

  of(currency: string): Purse {
    let purse = this.#purses.get(currency);
    if (!purse) {
      purse = { labour: ZERO, other: ZERO };
      this.#purses.set(currency, purse);
    }
    return purse;
  }

  sums(): MoneySum[] {
    return [...this.#purses].map(([currency, { labour, other }]) => ({
      currency,
      labour: formatExact(labour, 2),
      other: formatExact(other, 2),
      total: formatExact(labour.add(other), 2),
    }));
  }
}

function moneyOf(
  scope: string,
  labour: ReadonlyMap<string, Fraction>,
  ask: Ask,
): { money: MoneySum[]; unrated_s: number } {
  const purses = new Purses();
  const rates = new Map<string, Measure>();
  const accounts = ask.accounts(scope);
  for (const account of accounts) {
    for (const { work, value } of account.rates) rates.set(work, value);
    for (const { value } of account.costs) {
      const currency = currencyOf(value);
      if (currency !== "")
        purses.of(currency).other = purses.of(currency).other.add(exact(value.text).mul(value.unit.factor));
    }
  }
  let unrated = ZERO;
  for (const [work, time_s] of labour) {
    const rate = rates.get(work) ?? rates.get("");
    const currency = rate ? currencyOf(rate) : "";
    if (!rate || currency === "") {
      unrated = unrated.add(time_s);
      continue;
    }
    const purse = purses.of(currency);
    purse.labour = purse.labour.add(exact(rate.text).mul(rate.unit.factor).mul(time_s));
  }
  return { money: accounts.length === 0 ? [] : purses.sums(), unrated_s: unrated.valueOf() };
}

function signaturesOf(scope: string, ask: Ask): SignatureSum[] {
  const sums = new Map<string, { role: string; person: string; count: number; last: CivilDate }>();
  for (const { fact } of ask.facts(scope, "signs")) {
    const key = `${fact.role} ${fact.person}`;
    const sum = sums.get(key);
    if (!sum) sums.set(key, { role: fact.role, person: fact.person, count: 1, last: fact.on });
    else {
      sum.count++;
      if (fact.on > sum.last) sum.last = fact.on;
    }
  }
  return [...sums.values()];
}

const namesOf = (defects: readonly DefectState[], standing: DefectState["standing"]): string[] =>
  defects.filter((defect) => defect.standing === standing).map((defect) => defect.name);

/** Key: a job's name, or `engine:NAME` for work in service. */
export const jobSummary: Total<JobSummary> = {
  name: "job-summary",
  compute(scope: string, ask: Ask): JobSummary {
    const work = ask.work(scope);
    const sums = new Map<string, { person: string; work: string; time: Fraction }>();
    const byWork = new Map<string, Fraction>();
    for (const { fact } of ask.facts(scope, "labour")) {
      const time = seconds(fact.value);
      const key = `${fact.person} ${fact.work}`;
      const sum = sums.get(key);
      if (sum) sum.time = sum.time.add(time);
      else sums.set(key, { person: fact.person, work: fact.work, time });
      byWork.set(fact.work, (byWork.get(fact.work) ?? ZERO).add(time));
    }
    const labour = [...sums.values()].map(
      (sum): LabourSum => ({ person: sum.person, work: sum.work, time_s: sum.time.valueOf() }),
    );
    const runs = work.filter((head) => head.kind === "run");
    const times = runs.map((run) => ask.total(runTime, run.ref));
    const defects = ask.total(defectStates, scope);
    const steps = ask.total(routeSteps, scope);
    const days = work.map((head) => head.date).filter((date) => date !== undefined);
    return {
      scope,
      labour,
      labour_s: labour.reduce((sum, one) => sum + one.time_s, 0),
      ...moneyOf(scope, byWork, ask),
      runs: runs.length,
      run_s: times.reduce<number>((sum, time) => sum + (time ?? 0), 0),
      runsUnknown: times.filter((time) => time === undefined).length,
      entries: work.filter((head) => head.kind === "entry").length,
      photos: ask.facts(scope, "photos").length + (ask.job(scope)?.photos.length ?? 0),
      defects: {
        open: namesOf(defects, "open"),
        rectified: namesOf(defects, "rectified").length,
        deferred: namesOf(defects, "deferred"),
        conceded: namesOf(defects, "conceded"),
      },
      stillOpen: ask
        .total(openings, scope)
        .filter((one) => !one.closed)
        .map(({ what, opened }) => ({ what, ref: opened.ref, at: opened.at })),
      refused: ask
        .total(refusals, scope)
        .filter((one) => one.answered === "")
        .map(({ role, by, of, ref, at }) => ({ role, by, of, ref, at })),
      signs: signaturesOf(scope, ask),
      unsigned: steps.steps.reduce(
        (sum, step) => sum + step.blocks.filter((block) => block.missing.length > 0).length,
        0,
      ),
      firstDay: days[0],
      lastDay: days.at(-1),
      released: steps.release?.date,
      dispatched: steps.dispatch?.date,
    };
  },
};
