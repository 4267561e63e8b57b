import { formatDate } from "../../quantity/civil-date.ts";
import { mayAct, rolesFor } from "../../totals/authority.ts";
import { jobContext } from "../../totals/job-context.ts";
import { JOB, RELEASE } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly by: string;
  readonly on: string;
  readonly roles: string;
  readonly type: string;
}

export default rule<"release", Found>({
  id: "release/not-authorised",
  severity: "error",
  on: ["release"],
  page: {
    what: "The job was released by someone who may not release on that day, or not engines of this type.",
    why: "A release is worth the authority of whoever gives it. Where the shop has no `authority release` line a certifier may. A role that was given later, or had run out, does not count.",
    remedy:
      "Have it released by someone who may. Where the person may, complete the `person` block or the shop's `authority` line.",
    faulty: [{ text: `${JOB}${RELEASE.replaceAll("CNO", "RPE")}` }],
    sound: [{ text: `${JOB}${RELEASE}` }],
  },
  check(block, ask, report) {
    const person = ask.person(block.by);
    if (!person || block.date === undefined || person.unread.includes("role")) return;
    const { type } = ask.total(jobContext, block.job);
    if (mayAct(ask, block.by, "release", block.date, type)) return;
    report(
      { at: 0, role: "by" },
      { by: block.by, on: formatDate(block.date), roles: rolesFor(ask.shop(), "release").join(" or "), type },
      { related: [{ ref: person.ref, spot: { at: 0 }, says: "The person and their roles" }] },
    );
  },
  say: ({ by, on, roles, type }) =>
    `${by} released the job on ${on}, and holds no role on that day that may release${type === "" ? "" : ` a ${type}`} (in this shop: ${roles}). The release is worth nothing until someone who may has given it.`,
});
