import { formatDate } from "../../quantity/civil-date.ts";
import { JOB, RELEASE } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly on: string;
  /** The day of the release that came later, or "". */
  readonly released: string;
}

const DISPATCH = "dispatch 2026-04-24 J26-014\n";

export default rule<"dispatch", Found>({
  id: "dispatch/before-release",
  severity: "error",
  on: ["dispatch"],
  page: {
    what: "The engine was dispatched before its job was released, or without any release.",
    why: "An engine on the road is taken for an engine that may be fitted. An engine that goes back unreleased, for want of parts or of an order, should say so.",
    remedy:
      "Release the job first. Where it leaves unreleased on purpose, have this accepted by someone who may, with the reason, and say so on the papers that go with it.",
    faulty: [{ text: `${JOB}${DISPATCH}` }],
    sound: [{ text: `${JOB}${RELEASE}${DISPATCH}` }],
  },
  check(block, ask, report) {
    if (block.headerBroken || block.job === "") return;
    const work = ask.work(block.job);
    const own = work.findIndex((head) => head.ref === block.ref);
    const release = work.findIndex((head) => head.kind === "release");
    if (release >= 0 && (release < own || work[release]?.date === block.date)) return;
    const day = work[release]?.date;
    report(
      { at: 0, role: "date" },
      {
        on: block.date === undefined ? "" : formatDate(block.date),
        released: day === undefined ? "" : formatDate(day),
      },
      { related: release < 0 ? [] : [{ ref: work[release]?.ref ?? "", spot: { at: 0 }, says: "The release" }] },
    );
  },
  say: ({ on, released }) =>
    `The engine left${on === "" ? "" : ` on ${on}`} ${released === "" ? "and its job is not released" : `before its job was released on ${released}`}. Whoever gets it takes it for fit to be fitted: release it first, or have this accepted with the reason.`,
});
