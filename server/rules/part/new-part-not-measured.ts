import { covers, placeText } from "../../facts/place.ts";
import { scopeOf } from "../../facts/refs.ts";
import { featureCoverage } from "../../totals/coverage.ts";
import { jobContext } from "../../totals/job-context.ts";
import { mayBeUnread } from "../../totals/later-steps.ts";
import { engineOf, itemOf, partsFitted } from "../../totals/parts.ts";
import { historyKey } from "../../totals/place-history.ts";
import { passedBy, routeSteps, stepOfBlock } from "../../totals/route-steps.ts";
import { BORES } from "../example-shops.ts";
import { few } from "../limit-wording.ts";
import { type Related, rule } from "../rule.ts";

interface Found {
  readonly part: string;
  readonly place: string;
  readonly places: readonly string[];
  readonly passed: string;
  readonly source: string;
}

const SHOP = `${BORES}entry E1 2026-02-19 inspect job J26-014\n  measure cylinder.bore[3] 98.080 mm with BG-2\nentry E2 2026-03-02 build job J26-014\n  fit part "CY-9" serial "CY-71" at cylinder[3] source "release note 5512"\n`;

export default rule<"entry", Found>({
  id: "part/new-part-not-measured",
  severity: "error",
  on: ["entry"],
  reads: ["fits"],
  page: {
    what: "A part was fitted at a place whose measurements have limits, and it was not measured since.",
    why: "What was measured there belongs to the part that came out. A new part can be wrong too. It is work to do until a later step is signed or the job released; then it is an error.",
    remedy: "Measure it, below the `fit` line or in a later entry. Write `-` where a measurement does not apply to it.",
    faulty: [{ text: SHOP }],
    sound: [{ text: `${SHOP}  measure cylinder.bore[3] 98.012 mm with BG-2\n` }],
  },
  check(block, ask, report) {
    const placed = block.fits.filter((fit) => fit.place !== undefined);
    if (placed.length === 0) return;
    const scope = scopeOf(block);
    const { type, revision } = ask.total(jobContext, scope);
    const limits = ask.limits(type, revision);
    if (!limits) return;
    const engine = engineOf(block, ask);
    for (const fit of placed) {
      const place = fit.place;
      if (!place || itemOf(ask.total(partsFitted, engine), block.ref, fit.at)?.left !== undefined) continue;
      const lines = limits.limits.filter(
        (line) =>
          line.stat === "value" &&
          line.formula.length === 0 &&
          (line.place.feature === place.feature || line.place.feature.startsWith(`${place.feature}.`)),
      );
      const open: string[] = [];
      let first: Related | undefined;
      for (const feature of new Set(lines.map((line) => line.place.feature))) {
        for (const line of ask.total(featureCoverage, historyKey(scope, feature))) {
          const own = [...line.again, ...line.missing, ...line.todo].filter((path) => covers(place, path));
          open.push(...own.map((path) => placeText(feature, path)));
          if (own.length > 0)
            first ??= { ref: limits.ref, spot: { at: line.limitAt }, says: "A limit that holds there" };
        }
      }
      if (open.length === 0 || mayBeUnread(scope, "", ["measure", "grid", "with"], ask)) continue;
      const steps = ask.total(routeSteps, scope);
      const order = ask.work(scope).findIndex((head) => head.ref === block.ref);
      const passed = passedBy(steps, stepOfBlock(steps, block.ref)?.name ?? block.step, order);
      report(
        { at: fit.at, role: "at" },
        {
          part: fit.part,
          place: place.text,
          places: open,
          passed: passed.slice(passed.lastIndexOf("/") + 1),
          source: `${limits.type} revision ${limits.revision}`,
        },
        { place: place.text, severity: passed === "" ? "hint" : "error", related: first ? [first] : [] },
      );
    }
  },
  say: ({ part, place, places, passed, source }) =>
    `${part} at ${place} is not measured since it was fitted: ${few(places)} (limits ${source})${passed === "" ? "" : `, and the job went on with ${passed}`}. What was measured there before belongs to the old part: measure the new one.`,
});
