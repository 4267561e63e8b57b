import { formatDate } from "../../quantity/civil-date.ts";
import { dueItems } from "../../totals/due-items.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly engine: string;
  readonly bulletin: string;
  readonly title: string;
  readonly force: "mandatory" | "recommended";
  /** Days past its date; negative while ahead; undefined without a date. */
  readonly past: number | undefined;
  readonly by: string;
  readonly within: string;
  readonly serials: string;
  readonly again: boolean;
}

const SHOP = `${JOB}bulletin B-07 Curlew-9 "Cam ring to revision C" mandatory by 2026-04-30\n`;

export default rule<"engine", Found>({
  id: "bulletin/not-embodied",
  severity: "error",
  on: ["engine"],
  page: {
    what: "A bulletin for the engine's type is not embodied. A mandatory one past its date is an error; one that is still ahead, or recommended, is told for information. Optional ones are not mentioned.",
    why: "A mandatory bulletin was written because something failed elsewhere. Past its date the engine must not go. To which serials it applies stands in its text, and a person decides that.",
    remedy:
      "Embody it and record `embodied NAME` in the entry. Where it does not apply to this serial number, the line says so and by which paragraph, as a log book would.",
    faulty: [{ text: SHOP, asOf: "2026-05-01" }],
    sound: [
      { text: `${SHOP}entry E1 2026-03-19 build job J26-014\n  embodied B-07 "Ring CR-C"\n`, asOf: "2026-05-01" },
    ],
  },
  check(block, ask, report) {
    for (const item of ask.total(dueItems, block.name)) {
      if (item.kind !== "bulletin" || item.force === "optional" || item.force === "" || item.verdict === "done")
        continue;
      // Repeated work that was done and is not due yet.
      if (item.last && item.verdict !== "overdue" && item.verdict !== "beyond-tolerance") continue;
      const bulletin = ask.bulletin(item.name);
      if (!bulletin || bulletin.headerBroken) continue;
      const overdue = item.verdict === "overdue" || item.verdict === "beyond-tolerance";
      const days = item.governing?.measure === "calendar" ? Math.round(-item.governing.left) : undefined;
      report(
        { at: 0, role: "name" },
        {
          engine: block.name,
          bulletin: item.name,
          title: item.title,
          force: item.force,
          past: days,
          by: bulletin.by === undefined ? "" : formatDate(bulletin.by),
          within: bulletin.within ? `${bulletin.within.text} ${bulletin.within.unit.spelling}` : "",
          serials: bulletin.serials,
          again: item.last !== undefined,
        },
        {
          severity: item.force === "mandatory" && overdue ? "error" : "information",
          related: [{ ref: bulletin.ref, spot: { at: 0 }, says: "The bulletin" }],
        },
      );
    }
  },
  say({ engine, bulletin, title, force, past, by, within, serials, again }) {
    const days = past === undefined ? "" : Math.abs(past) === 1 ? "1 day" : `${Math.abs(past)} days`;
    const when =
      by !== "" && past !== undefined && !again
        ? past > 0
          ? `, and was to be by ${by}, ${days} ago`
          : `; it is to be by ${by}, in ${days}`
        : past !== undefined && past > 0
          ? `, and its repetition is past by ${days}`
          : within === ""
            ? ""
            : `; it is to be within ${within}`;
    const applies = serials === "" ? "" : ` It applies to: ${serials}.`;
    return `Bulletin ${bulletin} ("${title}", ${force}) is not embodied in ${engine}${again ? " again" : ""}${when}.${applies} Embody it and record it, or record why it does not apply.`;
  },
});
