import { decidedBefore, defectStates } from "../../totals/defect-states.ts";
import { positionOfRelease } from "../../totals/route-steps.ts";
import { JOB, RELEASE } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  /** Deferred defects that the statement does not name; empty when the statement itself is. */
  readonly missing: readonly string[];
}

const SHOP = `${JOB}entry E1 2026-04-17 close job J26-014\n  defect D9 rocker-cover[2] "Paint chipped"\n  defer D9 until 2027-04-30 by CNO 2026-04-17 "Cosmetic"\n`;

export default rule<"release", Found>({
  id: "release/statement-incomplete",
  severity: "error",
  on: ["release"],
  page: {
    what: "The release statement is empty, or it does not name a defect that was put off.",
    why: "The statement is what the owner reads and relies on. A defect that leaves with the engine must be named in it.",
    remedy: "State what was carried out and to which data, and name what is left open: `except D9`.",
    faulty: [{ text: `${SHOP}${RELEASE}` }, { text: `${JOB}${RELEASE.replace("Carried out to the data named", "")}` }],
    sound: [{ text: `${SHOP}${RELEASE.replace('named"', 'named" except D9')}` }],
  },
  check(block, ask, report) {
    if (block.headerBroken) return;
    if (block.statement.trim() === "") report({ at: 0, role: "statement" }, { missing: [] });
    const order = positionOfRelease(block, ask);
    const left = ask
      .total(defectStates, block.job)
      .filter((defect) => decidedBefore(defect, order)?.standing === "deferred" && !block.except.includes(defect.name));
    if (left.length === 0) return;
    report(
      { at: 0, role: "statement" },
      { missing: left.map((defect) => defect.name) },
      {
        related: left.map((defect) => ({
          ref: defect.decided?.ref ?? defect.ref,
          spot: { at: defect.decided?.at ?? defect.at },
          says: `Where ${defect.name} was put off`,
        })),
      },
    );
  },
  say: ({ missing }) =>
    missing.length === 0
      ? "The release states nothing. Say what was carried out and to which data: the owner relies on it."
      : `The release does not name ${missing.join(", ")}, put off and leaving with the engine. The owner must read of ${missing.length === 1 ? "it" : "them"}: add except ${missing.join(", ")}.`,
});
