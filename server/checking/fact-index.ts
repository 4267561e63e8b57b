/**
 * Facts of all blocks by key, and who asked for each key. A key that nobody's facts stand under is kept too once it was asked for.
 */
import type { Block } from "../facts/types.ts";
import { same } from "../facts/same.ts";
import type { BlockEntry, Change } from "../workspace/workspace.ts";
import { emit, headOf, isWork } from "./emit.ts";

/** Something that asked, and is to be looked at again when an answer changes. */
export interface Asker {
  /** Set when an answer may have changed since it was last worked out. */
  suspect: boolean;
}

/** The facts under one key. */
export interface Slot {
  readonly key: string;
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
  readonly keys: readonly string[];
  readonly values: readonly (readonly unknown[])[];
}

export class FactIndex {
  readonly #slots = new Map<string, Slot>();
  readonly #emitted = new Map<BlockEntry, Emitted>();
  readonly #onChange: (slot: Slot) => void;
  revision = 1;

  constructor(onChange: (slot: Slot) => void) {
    this.#onChange = onChange;
  }

  slot(key: string): Slot {
    let slot = this.#slots.get(key);
    if (!slot) {
      slot = { key, entries: [], values: [], answer: undefined, changedAt: 0, askers: undefined, notedBy: undefined };
      this.#slots.set(key, slot);
    }
    return slot;
  }

  /** Bumps a key whose answer comes from elsewhere (the date, the state of a file). */
  touch(key: string): void {
    this.#changed(this.slot(key));
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
    const keys: string[] = [];
    const values: (readonly unknown[])[] = [];
    emit(block, (key, list) => {
      keys.push(key);
      values.push(list);
    });
    return { keys, values };
  }

  #add(entry: BlockEntry): void {
    const emitted = this.#emit(entry.facts);
    this.#emitted.set(entry, emitted);
    for (const [i, key] of emitted.keys.entries()) {
      const slot = this.slot(key);
      slot.entries.push(entry);
      slot.values.push(emitted.values[i] as readonly unknown[]);
      this.#changed(slot);
    }
  }

  #remove(entry: BlockEntry): void {
    const emitted = this.#emitted.get(entry);
    if (!emitted) return;
    this.#emitted.delete(entry);
    for (const key of emitted.keys) this.#drop(key, entry);
  }

  #drop(key: string, entry: BlockEntry): void {
    const slot = this.slot(key);
    const i = slot.entries.indexOf(entry);
    if (i < 0) return;
    slot.entries.splice(i, 1);
    slot.values.splice(i, 1);
    this.#changed(slot);
  }

  #change(entry: BlockEntry, before: Block): void {
    const old = this.#emitted.get(entry) ?? { keys: [], values: [] };
    const next = this.#emit(entry.facts);
    // Facts of work are answered with the head of their block: when it changes, so do they all.
    const whole = isWork(before) !== isWork(entry.facts) || (isWork(before) && isWork(entry.facts) && !same(headOf(before), headOf(entry.facts)));
    const oldKeys = new Map(old.keys.map((key, i) => [key, i]));
    const values: (readonly unknown[])[] = [];
    for (const [i, key] of next.keys.entries()) {
      const at = oldKeys.get(key);
      const value = next.values[i] as readonly unknown[];
      if (at === undefined) {
        const slot = this.slot(key);
        slot.entries.push(entry);
        slot.values.push(value);
        values.push(value);
        this.#changed(slot);
        continue;
      }
      oldKeys.delete(key);
      const present = old.values[at] as readonly unknown[];
      if (!whole && same(present, value)) {
        values.push(present);
        continue;
      }
      const slot = this.slot(key);
      const position = slot.entries.indexOf(entry);
      if (position >= 0) slot.values[position] = value;
      values.push(value);
      this.#changed(slot);
    }
    for (const key of oldKeys.keys()) this.#drop(key, entry);
    this.#emitted.set(entry, { keys: next.keys, values });
  }
}
