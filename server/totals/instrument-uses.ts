/** What a block of work was measured with, and whether an instrument was in calibration on a day. */
import type { Ask, Total } from "../checking/ask.ts";
import { scopeOf } from "../facts/refs.ts";
import type { At, InstrumentBlock, WorkBlock } from "../facts/types.ts";
import type { CivilDate } from "../quantity/civil-date.ts";
import { blockReadings, historyKey } from "./place-history.ts";
import { featuresIn, isShared } from "./readings-of-block.ts";
import { featureTorques } from "./torque-coverage.ts";

export interface InstrumentUse {
  readonly instrument: string;
  /** First use. */
  readonly at: At;
  /** Role of the field there, or a cell. */
  readonly role: string;
  readonly cell: number;
  readonly count: number;
  /** `readings`, `torques`, `compressions`, `checks`; the first kind met. */
  readonly what: string;
}

export interface InstrumentUses {
  readonly instruments: readonly InstrumentUse[];
  readonly standards: readonly InstrumentUse[];
}

/**
 * Instruments and setting standards by name, with their first use. Uses that no longer speak are left out: readings that were superseded
 * and torques that were done again, so that measuring again with a good gauge quiets what was wrong with the first.
 */
export function usesOf(block: WorkBlock, ask: Ask): InstrumentUses {
  // Of two blocks with one name each is judged by its own lines.
  const found = ask.total(usesByRef, block.ref);
  return found.scope === scopeOf(block) ? found.uses : countUses(block, ask);
}

interface UsesOfRef {
  /** `undefined` where several blocks have the name. */
  readonly scope: string | undefined;
  readonly uses: InstrumentUses;
}

const SHARED: UsesOfRef = { scope: undefined, uses: { instruments: [], standards: [] } };

/** Key: `ref` of a block of work. Worked out once for all rules about instruments. */
const usesByRef: Total<UsesOfRef> = {
  name: "instrument-uses",
  compute(ref: string, ask: Ask): UsesOfRef {
    const block = ask.workBlock(ref);
    if (!block) return SHARED;
    const scope = scopeOf(block);
    return isShared(ref, scope, ask) ? SHARED : { scope, uses: countUses(block, ask) };
  },
};

function countUses(block: WorkBlock, ask: Ask): InstrumentUses {
  const scope = scopeOf(block);
  const instruments = new Map<string, { -readonly [K in keyof InstrumentUse]: InstrumentUse[K] }>();
  const standards: typeof instruments = new Map();
  const use = (
    into: typeof instruments,
    instrument: string,
    at: At,
    role: string,
    cell: number,
    what: string,
  ): void => {
    if (instrument === "") return;
    const seen = into.get(instrument);
    if (!seen) into.set(instrument, { instrument, at, role, cell, count: 1, what });
    else seen.count++;
  };
  for (const feature of featuresIn(block.readings)) {
    for (const one of ask.total(blockReadings, `${scope}|${feature}|${block.ref}`)) {
      if (one.status === "superseded" || one.result === "todo" || one.result === "none" || one.result === "bad")
        continue;
      use(instruments, one.instrument, one.at, one.cell < 0 ? "value" : "", one.cell, "readings");
      use(standards, one.standard, one.at, one.cell < 0 ? "value" : "", one.cell, "readings");
    }
  }
  for (const feature of block.torques.length === 0
    ? []
    : new Set(block.torques.map((torque) => torque.place.feature))) {
    const gone = new Set(
      ask
        .total(featureTorques, historyKey(scope, feature))
        .verdicts.flatMap((one) => (one.superseded && one.ref === block.ref ? [one.at] : [])),
    );
    for (const one of block.torques)
      if (one.place.feature === feature && !gone.has(one.at))
        use(instruments, one.instrument, one.at, "with", -1, "torques");
  }
  for (const one of block.compressions) use(instruments, one.instrument, one.at, "with", -1, "compressions");
  for (const one of block.checks) use(instruments, one.instrument, one.at, "with", -1, "checks");
  return { instruments: [...instruments.values()], standards: [...standards.values()] };
}

export interface CalibrationState {
  readonly state: "good" | "never" | "not-yet" | "lapsed" | "failed";
  /** Line of the calibration or failure that says so, 0 for none. */
  readonly at: At;
  /** Day from which, or until which. */
  readonly day: CivilDate | undefined;
}

/** How an instrument stood on a day. The last day of a calibration belongs to it; a failure ends it until the next good one. */
export function calibrationOn(instrument: InstrumentBlock, on: CivilDate): CalibrationState {
  if (instrument.calibrations.length === 0) return { state: "never", at: 0, day: undefined };
  let last: InstrumentBlock["calibrations"][number] | undefined;
  let first = instrument.calibrations[0];
  for (const one of instrument.calibrations) {
    if (one.on <= on && (last === undefined || one.on > last.on || (one.on === last.on && one.until > last.until)))
      last = one;
    if (first && one.on < first.on) first = one;
  }
  if (!last) return { state: "not-yet", at: first?.at ?? 0, day: first?.on };
  const since = last;
  const failure = instrument.failures.find((one) => one.on >= since.on && one.on <= on);
  // A calibration on the day of the failure is the one that put it right.
  if (failure && failure.on > since.on) return { state: "failed", at: failure.at, day: failure.on };
  return on <= since.until
    ? { state: "good", at: since.at, day: since.until }
    : { state: "lapsed", at: since.at, day: since.until };
}
