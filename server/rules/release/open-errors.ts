import { shortRef } from "../../facts/refs.ts";
import { positionOfRelease } from "../../totals/route-steps.ts";
import { JOB, RELEASE } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly count: number;
  /** The first few: `limit/out-of-limit in E3`. */
  readonly first: readonly string[];
}

const SHOP = `${JOB}entry E1 2026-02-17 strip job J26-014\n  consumable "Jointing compound" batch JC-11 expires 2026-01-31\n`;

export default rule<"release", Found>({
  id: "release/open-errors",
  severity: "error",
  on: ["release"],
  second: true,
  page: {
    what: "The job was released while errors stood open in it that nobody accepted.",
    why: "An error is what must not leave the shop. A release over open errors says that the work was done as it should be when the record says otherwise.",
    remedy:
      "Put each right, or have those that may be accepted accepted. Errors about limits, torques, runs, signatures, defects and the release itself take a signed concession or the work.",
    faulty: [{ text: `${SHOP}${RELEASE}` }],
    sound: [
      { text: `${SHOP.replace("2026-01-31", "2026-09-30")}${RELEASE}` },
      {
        text: `${SHOP}entry E2 2026-04-18 review job J26-014\n  accept part/shelf-life-expired E1 by CNO 2026-04-18 "Maker's letter 22 extends the batch to 2026-06-30"\n${RELEASE}`,
      },
    ],
  },
  check(block, ask, report) {
    const work = ask.work(block.job);
    const position = new Map(work.map((head, i) => [head.ref, i]));
    const own = positionOfRelease(block, ask);
    if (own < 0) return;
    // What stands in the release itself is seen there; what came after it was not open then.
    const open = ask
      .findings(block.job)
      .filter(
        (one) =>
          one.severity === "error" && !one.accepted && one.ref !== block.ref && (position.get(one.ref) ?? -1) < own,
      );
    if (open.length === 0) return;
    // Findings come in no order of their own; the message must not depend on which was found first.
    const key = (one: (typeof open)[number]): string => `${one.code} ${one.place} ${one.message}`;
    open.sort((a, b) => (position.get(a.ref) ?? -1) - (position.get(b.ref) ?? -1) || (key(a) < key(b) ? -1 : 1));
    report(
      { at: 0, role: "job" },
      { count: open.length, first: [...new Set(open.map((one) => `${one.code} in ${shortRef(one.ref)}`))].slice(0, 3) },
      { related: open.slice(0, 6).map((one) => ({ ref: one.ref, spot: { at: 0 }, says: one.message })) },
    );
  },
  say: ({ count, first }) =>
    `The job was released with ${count === 1 ? "an open error" : `${count} open errors`}: ${first.join(", ")}${count > first.length ? " and others" : ""}. What must not leave the shop is still in it: put ${count === 1 ? "it" : "them"} right before it goes.`,
});
