/**
 * Who may do what on which day, and whether an acceptance holds.
 *
 * A shop says with `authority ACT ROLE, ROLE` which roles may accept a finding, sign a concession, defer a defect, release, or refuse to sign. An act
 * for which it has no such line falls to these roles (a convention of this language; common practice, no source):
 *
 * | act | roles |
 * | --- | --- |
 * | accept | inspector, certifier |
 * | concession | certifier |
 * | defer | certifier |
 * | release | certifier |
 * | refuse | inspector, certifier |
 *
 * A role that a person holds only for certain engine types (`role inspector from ... for Curlew-9`) does not serve on others.
 */
import type { Ask, FindingView, Placed } from "../checking/ask.ts";
import { covers, parsePlace, pathsOf } from "../facts/place.ts";
import { qualify } from "../facts/refs.ts";
import type { AcceptLine, Act, PersonBlock, ShopBlock } from "../facts/types.ts";
import type { CivilDate } from "../quantity/civil-date.ts";

/** Families whose errors nobody lowers by accepting them: only a signed concession does. */
export const GUARDED_FAMILIES: ReadonlySet<string> = new Set(["limit", "torque", "run", "sign", "defect", "release"]);

/** `limit` of `limit/out-of-limit`. */
export function familyOf(code: string): string {
  const slash = code.indexOf("/");
  return slash < 0 ? code : code.slice(0, slash);
}

/** Roles that may act where the shop names none. */
export const DEFAULT_ROLES: Readonly<Record<Act, readonly string[]>> = {
  accept: ["inspector", "certifier"],
  concession: ["certifier"],
  defer: ["certifier"],
  release: ["certifier"],
  refuse: ["inspector", "certifier"],
};

/** The roles that may act, from the shop's `authority` lines, or the defaults. */
export function rolesFor(shop: ShopBlock, act: Act): readonly string[] {
  const named = shop.authorities.filter((line) => line.act === act).flatMap((line) => line.roles);
  return named.length > 0 ? named : DEFAULT_ROLES[act];
}

/** Whether the day lies within a dated line; `until` includes its day. */
export function coversDay(
  line: { readonly from: CivilDate; readonly until: CivilDate | undefined },
  on: CivilDate,
): boolean {
  return line.from <= on && (line.until === undefined || on <= line.until);
}

/**
 * Whether a person holds a role on a day.
 * @param type engine type of the work; left out or `""` where it is not known, and then a role for any type serves
 */
export function holdsRole(person: PersonBlock, role: string, on: CivilDate, type = ""): boolean {
  return person.roles.some(
    (held) =>
      held.role === role &&
      coversDay(held, on) &&
      (type === "" || held.types.length === 0 || held.types.includes(type)),
  );
}

/**
 * Whether a person's authorisation covers a day. Someone without any licence line is not asked for one.
 */
export function licenceCovers(person: PersonBlock, on: CivilDate): boolean {
  return person.licences.length === 0 || person.licences.some((licence) => coversDay(licence, on));
}

/**
 * Whether a person may act on a day. A name that no `person` block declares may not.
 * @param type engine type of the work, `""` where it does not matter
 */
export function mayAct(ask: Ask, personName: string, act: Act, on: CivilDate, type = ""): boolean {
  const person = ask.person(personName);
  if (!person) return false;
  return rolesFor(ask.shop(), act).some((role) => holdsRole(person, role, on, type));
}

/**
 * Whether a reference, as an acceptance or concession writes it, means the block in which a finding stands. Within its job `E3` means `J26-014/E3`; a block
 * outside any job is meant by its name (`C9-0412` is `engine/C9-0412`) or in full.
 */
export function refersTo(scope: string, written: string, ref: string): boolean {
  if (written === "") return false;
  if (ref === written || ref === qualify(scope, written)) return true;
  return (
    !written.includes("/") &&
    /^(?:engine|job|instrument|stand|person|engine-type|task|bulletin|route|alert|account)\//u.test(ref) &&
    ref.slice(ref.indexOf("/") + 1) === written
  );
}

/** Whether every place of `inner` (as written, `feature[path]`) lies within the place set. */
export function placeWithin(inner: string, outer: NonNullable<AcceptLine["place"]>): boolean {
  if (inner === outer.text) return true;
  const place = parsePlace(inner);
  if (!place || (place.feature !== outer.feature && !place.feature.startsWith(`${outer.feature}.`))) return false;
  return pathsOf(place).every((path) => covers(outer, path));
}

/**
 * Whether an acceptance is about a finding, whatever its author's authority: the same code, the block, the place where one is given.
 */
export function acceptanceMeets(placed: Placed<AcceptLine>, finding: FindingView): boolean {
  const { block, fact } = placed;
  if (fact.code !== finding.code) return false;
  const scope = block.job !== "" ? block.job : `engine:${block.engine}`;
  return refersTo(scope, fact.ref, finding.ref) && (fact.place === undefined || placeWithin(finding.place, fact.place));
}

/**
 * Whether an acceptance makes a finding quiet: it is about the finding, its author may accept on that day, it gives a reason, and the finding is not an
 * error of a guarded family.
 */
export function acceptanceHolds(placed: Placed<AcceptLine>, finding: FindingView, ask: Ask): boolean {
  const { fact } = placed;
  if (!acceptanceMeets(placed, finding)) return false;
  if (fact.reason.trim() === "") return false;
  if (finding.severity === "error" && GUARDED_FAMILIES.has(familyOf(finding.code))) return false;
  return mayAct(ask, fact.by, "accept", fact.on);
}
