/**
 * Facts of all blocks by key, and who asked for each key. A key that nobody's facts stand under is kept too once it was asked for.
 */

import { same } from "../facts/same.ts";
import type { Block } from "../facts/types.ts";
import type { BlockEntry, Change } from "../workspace/workspace.ts";
import { emit, headOf, isWork } from "./emit.ts";

/** Something that asked, and is to be looked at again when an answer changes. */
export interface Asker {
  /** Set when an answer may have changed since it was last worked out. */
  suspect: boolean;
}

/** The facts under one key. */
export interface Slot {
  readonly entries: BlockEntry[];
  readonly values: (readonly unknown[])[];
  /** What the key was last answered with; dropped when a fact changes. */
  answer: unknown;
  /** Revision of the last change. */
  changedAt: number;
  askers: Set<Asker> | undefined;
  /** The list of questions in which it was noted last, so that a question asked twice is noted once. */
  notedBy: unknown;
}

interface Emitted {
  readonly slots: readonly Slot[];
  readonly values: readonly (readonly unknown[])[];
}

export class FactIndex {
  /** Slots by the parts of their keys. A slot never goes away, so whoever holds one need not look it up again. */
  readonly #slots = new Map<string, Map<string, Map<string, Slot>>>();
  /** What each block put where; kept only where edits are taken. */
  readonly #emitted: Map<BlockEntry, Emitted> | undefined;
  readonly #onChange: (slot: Slot) => void;
  revision = 1;

  /** @param edits whether blocks may change or go later */
  constructor(onChange: (slot: Slot) => void, edits: boolean) {
    this.#onChange = onChange;
    this.#emitted = edits ? new Map() : undefined;
  }

  slot(family: string, first = "", second = ""): Slot {
    let byFirst = this.#slots.get(family);
    if (!byFirst) {
      byFirst = new Map();
      this.#slots.set(family, byFirst);
    }
    let bySecond = byFirst.get(first);
    if (!bySecond) {
      bySecond = new Map();
      byFirst.set(first, bySecond);
    }
    let slot = bySecond.get(second);
    if (!slot) {
      slot = { entries: [], values: [], answer: undefined, changedAt: 0, askers: undefined, notedBy: undefined };
      bySecond.set(second, slot);
    }
    return slot;
  }

  /** Drops the joined answers about a job; they are joined again when somebody asks. */
  forgetAnswers(job: string): void {
    for (const family of ["facts", "readings", "torques", "work", "features"]) {
      for (const slot of this.#slots.get(family)?.get(job)?.values() ?? []) slot.answer = undefined;
    }
  }

  /** Bumps a key whose answer comes from elsewhere (the date, the state of a file). */
  touch(family: string, first = ""): void {
    this.#changed(this.slot(family, first));
  }

  apply(change: Change): void {
    for (const entry of change.removed) this.#remove(entry);
    for (const entry of change.added) this.#add(entry);
    for (const { entry, before } of change.changed) this.#change(entry, before);
  }

  #changed(slot: Slot): void {
    slot.answer = undefined;
    slot.changedAt = this.revision;
    this.#onChange(slot);
  }

  #emit(block: Block): Emitted {
    const slots: Slot[] = [];
    const values: (readonly unknown[])[] = [];
    emit(block, (family, first, second, list) => {
      slots.push(this.slot(family, first, second));
      values.push(list);
    });
    return { slots, values };
  }

  #add(entry: BlockEntry): void {
    if (!this.#emitted) {
      emit(entry.facts, (family, first, second, list) => {
        const slot = this.slot(family, first, second);
        slot.entries.push(entry);
        slot.values.push(list);
      });
      return;
    }
    const emitted = this.#emit(entry.facts);
    this.#emitted.set(entry, emitted);
    for (const [i, slot] of emitted.slots.entries()) {
      slot.entries.push(entry);
      slot.values.push(emitted.values[i]);
      this.#changed(slot);
    }
  }

  #remove(entry: BlockEntry): void {
    const emitted = this.#emitted?.get(entry);
    if (!emitted) return;
    this.#emitted?.delete(entry);
    for (const slot of emitted.slots) this.#drop(slot, entry);
  }

  #drop(slot: Slot, entry: BlockEntry): void {
    const i = slot.entries.indexOf(entry);
    if (i < 0) return;
    slot.entries.splice(i, 1);
    slot.values.splice(i, 1);
    this.#changed(slot);
  }

  #change(entry: BlockEntry, before: Block): void {
    const old = this.#emitted?.get(entry) ?? { slots: [], values: [] };
    const next = this.#emit(entry.facts);
    // Facts of work are answered with the head of their block: when it changes, so do they all.
    const whole =
      isWork(before) !== isWork(entry.facts) ||
      (isWork(before) && isWork(entry.facts) && !same(headOf(before), headOf(entry.facts)));
    const oldSlots = new Map(old.slots.map((slot, i) => [slot, i]));
    const values: (readonly unknown[])[] = [];
    for (const [i, slot] of next.slots.entries()) {
      const at = oldSlots.get(slot);
      const value = next.values[i];
      if (at === undefined) {
        slot.entries.push(entry);
        slot.values.push(value);
        values.push(value);
        this.#changed(slot);
        continue;
      }
      oldSlots.delete(slot);
      const present = old.values[at];
      if (!whole && same(present, value)) {
        values.push(present);
        continue;
      }
      const position = slot.entries.indexOf(entry);
      if (position >= 0) slot.values[position] = value;
      values.push(value);
      this.#changed(slot);
    }
    for (const slot of oldSlots.keys()) this.#drop(slot, entry);
    this.#emitted?.set(entry, { slots: next.slots, values });
  }
}
