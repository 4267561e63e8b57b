import { familyOf, GUARDED_FAMILIES, mayAct, rolesFor } from "../../totals/authority.ts";
import { PEOPLE } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly code: string;
  readonly level: string;
  /** What the line lacks. */
  readonly lacks: string;
}

const shop = (rest: string): string =>
  `${PEOPLE}shop "Saltmarsh Engine Works"\n  severity torque/lubrication warning${rest}\n`;

export default rule<"shop", Found>({
  id: "review/severity-lowered-without-concession",
  severity: "error",
  on: ["shop"],
  reads: ["severities"],
  page: {
    what: "A setting of the shop lowers findings about limits, torques, runs, signatures, defects or releases, and nobody who may give concessions stands behind it with a reason.",
    why: "A setting works on every engine of the shop, silently. What guards against harm is not turned down in passing.",
    remedy:
      'Add the reason, the person and the day: `severity torque/lubrication warning "reason" by CNO 2026-01-10`. Otherwise remove the line.',
    faulty: [{ text: shop("") }, { text: shop(' "Our oil is thin" by ATH 2026-01-10') }],
    sound: [{ text: shop(' "Maker\'s letter 8 takes either state" by CNO 2026-01-10') }],
  },
  check(shopBlock, ask, report) {
    for (const line of shopBlock.severities) {
      if (line.level === "error" || !GUARDED_FAMILIES.has(familyOf(line.code))) continue;
      let lacks = "";
      if (line.reason.trim() === "") lacks = "gives no reason";
      else if (line.by === "" || line.on === undefined) lacks = "names nobody who answers for it";
      else if (ask.person(line.by) && !mayAct(ask, line.by, "concession", line.on))
        lacks = `is by ${line.by}, who may not give concessions on that day (in this shop: ${rolesFor(shopBlock, "concession").join(" or ")})`;
      if (lacks === "") continue;
      const person = line.by === "" ? undefined : ask.person(line.by);
      report(
        { at: line.at, role: "level" },
        { code: line.code, level: line.level, lacks },
        { related: person ? [{ ref: person.ref, spot: { at: 0 }, says: "The person and their roles" }] : [] },
      );
    }
  },
  say: ({ code, level, lacks }) =>
    `The shop sets ${code} to ${level}, and the line ${lacks}. Findings of this family guard against harm, on every engine: add reason, person and day, or remove the line.`,
});
