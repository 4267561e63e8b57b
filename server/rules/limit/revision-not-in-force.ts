import { formatDate } from "../../quantity/civil-date.ts";
import { jobContext, revisionInForce } from "../../totals/job-context.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly revision: string;
  readonly from: string;
  readonly day: string;
  /** The revision that was in force on that day, where the named one had been replaced. */
  readonly later: string;
  readonly laterFrom: string;
  readonly isReceived: boolean;
}

const TYPE =
  "engine-type Curlew-9\nlimits Curlew-9 revision B from 2024-01-01\n  limit cylinder.bore[1..9] wear max 98.080 mm\nlimits Curlew-9 revision C from 2025-11-01\n  limit cylinder.bore[1..9] wear max 98.070 mm\nengine C9-0412 Curlew-9\n";

export default rule<"job", Found>({
  id: "limit/revision-not-in-force",
  severity: "warning",
  on: ["job"],
  reads: ["limits"],
  page: {
    what: "A job works to a revision of the limits that was not in force: one that had been replaced before the engine was received, or one of a later date than its readings.",
    why: "Limits are tightened for a reason. A job that began under an old sheet is checked against figures that had been withdrawn; one under a sheet of a later date claims to have followed what was not yet written.",
    remedy: "Name the revision that was in force, or accept the finding with the reason.",
    faulty: [{ text: `${TYPE}job J26-014 engine C9-0412 limits B\n  received 2026-02-16\n` }],
    sound: [{ text: `${TYPE}job J26-014 engine C9-0412 limits C\n  received 2026-02-16\n` }],
  },
  check(block, ask, report) {
    const { type, revision, revisionNamed, received } = ask.total(jobContext, block.name);
    const named = ask.limits(type, revision);
    if (!named || !revisionNamed || named.from === undefined) return;
    const first = received ?? ask.work(block.name).find((head) => head.date !== undefined)?.date;
    if (first === undefined) return;
    const last =
      ask
        .work(block.name)
        .findLast((head) => head.date !== undefined && head.kind !== "dispatch" && head.kind !== "release")?.date ??
      first;
    const inForce = revisionInForce(ask.revisions(type), first);
    const isReplaced =
      inForce !== undefined && inForce.from !== undefined && inForce.revision !== revision && inForce.from > named.from;
    // A revision that came out during the job may be taken over; one of a date after all of its work cannot have been followed.
    if (!isReplaced && named.from <= last) return;
    report(
      { at: 0, role: "limits" },
      {
        revision: `${type} revision ${revision}`,
        from: formatDate(named.from),
        day: formatDate(isReplaced ? first : last),
        later: isReplaced ? inForce.revision : "",
        laterFrom: isReplaced && inForce.from !== undefined ? formatDate(inForce.from) : "",
        isReceived: received !== undefined,
      },
      {
        related: [
          { ref: named.ref, spot: { at: 0 }, says: "The revision named" },
          ...(isReplaced ? [{ ref: inForce.ref, spot: { at: 0 }, says: "The revision that was in force" }] : []),
        ],
      },
    );
  },
  say: ({ revision, from, day, later, laterFrom, isReceived }) =>
    later === ""
      ? `${revision} is in force from ${from}, and the last work is of ${day}: readings cannot have been checked against it. Name the revision that was in force.`
      : `${revision} had been replaced by revision ${later} from ${laterFrom} when ${isReceived ? "the engine was received" : "work began"} on ${day}. Work to revision ${later}, or accept it with the reason.`,
  repair: ({ later }, spot) =>
    later === ""
      ? []
      : [{ title: `Work to revision ${later}`, grade: "review", edits: [{ kind: "replace", spot, text: later }] }],
});
