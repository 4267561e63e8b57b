import { formatDate } from "../../quantity/civil-date.ts";
import { holdsRole } from "../../totals/authority.ts";
import { passedBy, routeSteps, stepOfBlock } from "../../totals/route-steps.ts";
import { WORK } from "../limit-wording.ts";
import { onRoute } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly block: string;
  readonly step: string;
  readonly roles: readonly string[];
  readonly independent: boolean;
  /** The block that closed the step behind it, or "". */
  readonly passed: string;
  /** A signature line ready to be signed, where one person holds the role; "" otherwise. */
  readonly line: string;
}

/** `an inspector`, `a fitter`. */
const oneOf = (role: string): string => `${/^[aeiou]/u.test(role) ? "an" : "a"} ${role}`;

const SHOP = onRoute("inspect needs sign fitter; sign inspector independent", "build after inspect needs sign fitter");
const ENTRY = 'entry E1 2026-02-19 inspect "Barrels" job J26-014\n  sign fitter ATH 2026-02-19\n';

export default rule<(typeof WORK)[number], Found>({
  id: "sign/missing",
  severity: "error",
  on: WORK,
  reads: ["step", "signs", "unread"],
  page: {
    what: "The step of the route asks for a signature that this block does not have.",
    why: "A signature covers the block in which it stands and no other. Work that nobody answers for is a draft. It is work to do until a later step is signed or the job released; then the engine went on without it, which is an error.",
    remedy: "Have it signed by someone who holds the role: `sign ROLE PERSON DATE`.",
    faulty: [
      { text: `${SHOP}${ENTRY}` },
      { text: `${SHOP}${ENTRY}entry E2 2026-02-27 build job J26-014\n  sign fitter ATH 2026-02-27\n` },
    ],
    sound: [{ text: `${SHOP}${ENTRY}  sign inspector RPE 2026-02-20\n` }],
  },
  check(block, ask, report) {
    if (block.job === "" || block.unread.includes("sign")) return;
    // An unsigned release has a finding of its own.
    if (block.kind === "release" && block.signs.length === 0) return;
    const steps = ask.total(routeSteps, block.job);
    const step = stepOfBlock(steps, block.ref);
    const own = step?.blocks.find((one) => one.ref === block.ref);
    if (!step || !own) return;
    const passed = passedBy(steps, step.name, own.order);
    for (const { roles, independent } of own.missing) {
      const role = roles[0] ?? "";
      const on = block.date;
      const holders =
        on === undefined || roles.length > 1 ? [] : ask.people().filter((person) => holdsRole(person, role, on));
      const only = holders.length === 1 && on !== undefined ? `sign ${role} ${holders[0]?.name} ${formatDate(on)}` : "";
      report(
        { at: 0, role: block.kind === "entry" || block.kind === "run" ? "name" : "job" },
        { block: block.name, step: step.name, roles, independent, passed, line: only },
        {
          severity: passed === "" ? "hint" : "error",
          related: [
            { ref: steps.routeRef, spot: { at: step.at, role: "name" }, says: "What the step asks for" },
            ...(passed === "" ? [] : [{ ref: passed, spot: { at: 0 }, says: "What went on without it" }]),
          ],
        },
      );
    }
  },
  say({ block, step, roles, independent, passed }) {
    const who = `${oneOf(roles.join(" or "))}${independent ? " (independent)" : ""}`;
    return passed === ""
      ? `${block} is still to be signed by ${who}, as step ${step} asks.`
      : `${block} is not signed by ${who}, as step ${step} asks, and the job went on with ${passed.slice(passed.lastIndexOf("/") + 1)}. Nobody answers for it: have it looked at and signed.`;
  },
  repair({ line }) {
    return line === ""
      ? []
      : [{ title: `Add the line "${line}" for signature`, grade: "review", edits: [{ kind: "append", text: line }] }];
  },
});
