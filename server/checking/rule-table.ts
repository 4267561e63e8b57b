/**
 * Rules by kind of block, with the members of the block that each looks at as bits: most rules have nothing to look at in most blocks, and one
 * comparison tells.
 */
import { emptyBlock } from "../facts/draft.ts";
import { same } from "../facts/same.ts";
import type { Block } from "../facts/types.ts";
import type { AnyRule, Rule } from "../rules/rule.ts";

/** A rule as the sweep calls it: which facts it takes is settled by its kinds of block. */
export type LooseRule = Rule<Block["kind"], unknown>;

/** A rule on a kind of block, with the bits of the members that it looks at. */
export interface Listed {
  readonly rule: LooseRule;
  readonly low: number;
  readonly high: number;
}

export interface RuleTable {
  readonly first: ReadonlyMap<Block["kind"], readonly Listed[]>;
  readonly second: ReadonlyMap<Block["kind"], readonly Listed[]>;
}

export function tableOf(rules: readonly AnyRule[]): RuleTable {
  const first = new Map<Block["kind"], Listed[]>();
  const second = new Map<Block["kind"], Listed[]>();
  for (const one of rules as unknown as readonly LooseRule[]) {
    for (const kind of one.on) {
      const table = one.second ? second : first;
      const list = table.get(kind);
      const listed = { rule: one, ...readBits(one, kind) };
      if (list) list.push(listed);
      else table.set(kind, [listed]);
    }
  }
  return { first, second };
}

/** The members of each kind of block, in the order of the bits that stand for them. */
const memberKeys = new Map<Block["kind"], readonly string[]>();

function keysOf(kind: Block["kind"]): readonly string[] {
  let keys = memberKeys.get(kind);
  if (!keys) {
    keys = Object.keys(emptyBlock(kind));
    memberKeys.set(kind, keys);
  }
  return keys;
}

/** Bits per number: bitwise operations are exact to 32, and the sign is kept out of it. */
const BITS = 31;

function isFilled(value: unknown): boolean {
  return Array.isArray(value) ? value.length > 0 : value !== undefined && value !== "" && value !== -1;
}

/** Which members of a block hold something, as bits in the order of `keysOf`. */
export function filledMembers(facts: Block): [low: number, high: number] {
  const keys = keysOf(facts.kind);
  const values = facts as unknown as Record<string, unknown>;
  let low = 0;
  let high = 0;
  for (let i = 0; i < keys.length; i++) {
    if (!isFilled(values[keys[i]])) continue;
    if (i < BITS) low |= 1 << i;
    else if (i < 2 * BITS) high |= 1 << (i - BITS);
  }
  return [low, high];
}

/** The bits of the members that a rule looks at; none where it looks at the whole block, or at a member past those that have a bit. */
function readBits(one: LooseRule, kind: Block["kind"]): { low: number; high: number } {
  const keys = keysOf(kind);
  let low = 0;
  let high = 0;
  for (const member of one.reads ?? []) {
    const i = keys.indexOf(member);
    if (i >= 2 * BITS) return { low: 0, high: 0 };
    if (i >= BITS) high |= 1 << (i - BITS);
    else if (i >= 0) low |= 1 << i;
  }
  return { low, high };
}

/** Lists of a block that changed, or "all" when something else did: its name, date or job. */
export function changedMembers(before: Block, after: Block): Set<string> | "all" {
  if (before.kind !== after.kind) return "all";
  const changed = new Set<string>();
  const old = before as unknown as Record<string, unknown>;
  const next = after as unknown as Record<string, unknown>;
  for (const member of keysOf(after.kind)) {
    if (same(old[member], next[member])) continue;
    if (!Array.isArray(next[member]) && member !== "afterSign") return "all";
    changed.add(member);
  }
  return changed;
}
