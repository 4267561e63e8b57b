import type { Ask } from "../../checking/ask.ts";
import type { WorkBlock } from "../../facts/types.ts";
import { routeSteps, stepOfBlock } from "../../totals/route-steps.ts";
import { WORK } from "../limit-wording.ts";
import { onRoute } from "../record-shops.ts";
import { type Related, rule } from "../rule.ts";

interface Found {
  readonly person: string;
  readonly role: string;
  readonly step: string;
  readonly did: string;
}

/** Labour of these kinds is the looking itself and takes no one's independence. */
const LOOKING: ReadonlySet<string> = new Set([
  "inspect",
  "inspection",
  "inspecting",
  "witness",
  "witnessing",
  "review",
  "check",
  "checking",
]);

const SHOP = onRoute("build needs sign fitter; sign inspector independent");
const ENTRY = 'entry E1 2026-02-27 build "Barrels" job J26-014\n';

/** What a person did in the work that they sign for as independent. */
function ownWork(
  person: string,
  block: WorkBlock,
  independent: ReadonlySet<string>,
  refs: ReadonlySet<string>,
  ask: Ask,
): { did: string; where: Related } | undefined {
  const here = (at: number, says: string): Related => ({ ref: block.ref, spot: { at }, says });
  const doer = block.signs.find((sign) => sign.person === person && !independent.has(sign.role));
  if (doer)
    return { did: `signed the same block as ${doer.role}`, where: here(doer.at, "Signed as the one who did it") };
  if (block.by === person && block.kind === "run") return { did: "ran the engine", where: here(0, "Ran the engine") };
  for (const [lines, what] of [
    [block.readings, "took a reading"],
    [block.torques, "tightened a fastener"],
    [block.checks, "made a check"],
  ] as const) {
    const line = lines.find((one) => one.by === person);
    if (line) return { did: `${what} in it`, where: here(line.at, "Done by the same person") };
  }
  for (const { block: other, fact } of ask.facts(block.job, "labour")) {
    if (fact.person !== person || LOOKING.has(fact.work) || !refs.has(other.ref)) continue;
    return {
      did: `worked ${fact.value.text} ${fact.value.unit.spelling} on ${other.name}`,
      where: { ref: other.ref, spot: { at: fact.at }, says: "Worked on it" },
    };
  }
  return undefined;
}

export default rule<(typeof WORK)[number], Found>({
  id: "sign/not-independent",
  severity: "error",
  on: WORK,
  reads: ["signs"],
  page: {
    what: "The route asks for an independent signature, and whoever gave it did the work too: signed it as the one who did it, is named by a line of it, or has labour in the step. Labour written as inspect, witness, review or check is the looking itself and does not count.",
    why: "People do not see their own slips. The second signature is there because someone else looked.",
    remedy: "Have the work looked at and signed by someone who took no part in it.",
    faulty: [
      {
        text: `${SHOP.replace("role fitter from 2024-01-08", "role fitter from 2024-01-08\n  role inspector from 2024-01-08")}${ENTRY}  sign fitter ATH 2026-02-27\n  sign inspector ATH 2026-02-27\n`,
      },
      {
        text: `${SHOP}${ENTRY}  labour RPE 2 h build\n  sign fitter ATH 2026-02-27\n  sign inspector RPE 2026-02-28\n`,
      },
    ],
    sound: [
      {
        text: `${SHOP}${ENTRY}  labour ATH 2 h build\n  labour RPE 1 h inspect\n  sign fitter ATH 2026-02-27\n  sign inspector RPE 2026-02-28\n`,
      },
    ],
  },
  check(block, ask, report) {
    if (block.job === "") return;
    const steps = ask.total(routeSteps, block.job);
    const step = stepOfBlock(steps, block.ref);
    if (!step) return;
    const needs = ask.route(steps.route)?.steps.find((one) => one.name === step.name)?.needs ?? [];
    const independent = new Set(needs.flatMap((need) => (need.kind === "sign" && need.independent ? [need.role] : [])));
    if (independent.size === 0) return;
    const refs = new Set(step.blocks.map((one) => one.ref));
    for (const sign of block.signs) {
      if (!independent.has(sign.role)) continue;
      const own = ownWork(sign.person, block, independent, refs, ask);
      if (own)
        report(
          { at: sign.at, role: "person" },
          { person: sign.person, role: sign.role, step: step.name, did: own.did },
          { related: [own.where] },
        );
    }
  },
  say: ({ person, role, step, did }) =>
    `${person} signed as independent ${role} for step ${step}, but ${did}. The second look must be someone else's: have it signed by another ${role}.`,
});
