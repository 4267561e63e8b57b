import { scopeOf } from "../../facts/refs.ts";
import { mayBeUnread } from "../../totals/later-steps.ts";
import { openings } from "../../totals/openings.ts";
import { routeSteps } from "../../totals/route-steps.ts";
import { JOB, RELEASE } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly what: string;
  readonly in: string;
  /** The release or dispatch that went by, or "". */
  readonly passed: string;
  readonly closedIn: string;
}

const SHOP = `${JOB}entry E1 2026-02-18 strip job J26-014\n  open gear-case\n`;

export default rule<"entry", Found>({
  id: "route/opened-not-closed",
  severity: "error",
  on: ["entry"],
  reads: ["openCloses"],
  page: {
    what: "Something was opened, and no line closes it. It is work to do until the job is released or the engine leaves, then an error.",
    why: "A cover that was taken off and not put back is the oldest accident there is. The record must show the closing of everything that it shows the opening of.",
    remedy: "Close it, and record `close NAME` with the same name in the entry that does it.",
    faulty: [{ text: `${SHOP}${RELEASE}` }, { text: SHOP }],
    sound: [{ text: `${SHOP}entry E2 2026-03-23 build job J26-014\n  close gear-case\n${RELEASE}` }],
  },
  check(block, ask, report) {
    const scope = scopeOf(block);
    const own = ask.total(openings, scope).filter((one) => one.opened.ref === block.ref);
    if (own.length === 0) return;
    const steps = ask.total(routeSteps, scope);
    const doors = [steps.release, steps.dispatch].filter((door) => door !== undefined);
    for (const { what, opened, closed } of own) {
      const door = doors.find((one) => one.order > opened.order && (!closed || closed.order > one.order));
      if ((closed && !door) || mayBeUnread(scope, "", ["close"], ask)) continue;
      report(
        { at: opened.at, role: "what" },
        {
          what,
          in: block.name,
          passed: door ? door.ref.slice(door.ref.lastIndexOf("/") + 1) : "",
          closedIn: closed ? closed.ref.slice(closed.ref.lastIndexOf("/") + 1) : "",
        },
        {
          severity: door ? "error" : "hint",
          related: door ? [{ ref: door.ref, spot: { at: 0 }, says: "Went by while it was open" }] : [],
        },
      );
    }
  },
  say({ what, in: block, passed, closedIn }) {
    if (passed === "") return `${what} was opened in ${block} and is still to be closed.`;
    return `${what} was opened in ${block} and was not closed at the ${passed}${closedIn === "" ? "" : ` (only later, in ${closedIn})`}. Look at the engine: close it and record it.`;
  },
});
