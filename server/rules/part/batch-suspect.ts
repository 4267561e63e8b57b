import type { AlertBlock, FitLine } from "../../facts/types.ts";
import { formatDate } from "../../quantity/civil-date.ts";
import { engineOf, itemOf, partsFitted } from "../../totals/parts.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly part: string;
  readonly which: string;
  readonly engine: string;
  readonly alert: string;
  readonly title: string;
  readonly on: string;
}

const SHOP = `${JOB}alert A-3 2026-03-01 "Guides below hardness"\n  suspect "CG-1102" batch B71\n`;
const fitting = (batch: string): string =>
  `entry E1 2026-02-27 build job J26-014\n  fit part "CG-1102" qty 1 batch ${batch} source "release note 5512"\n`;

/** How a fitting meets a suspect line: by batch, by serial, by part number alone; `""` where it does not. */
function meets(fit: FitLine, suspect: AlertBlock["suspects"][number]): string {
  if (fit.part !== suspect.part) return "";
  if (suspect.batch === "" && suspect.serials.length === 0) return "of any batch";
  if (suspect.batch !== "" && suspect.batch === fit.batch) return `batch ${fit.batch}`;
  return fit.serial !== "" && suspect.serials.includes(fit.serial) ? `serial ${fit.serial}` : "";
}

export default rule<"engine" | "entry", Found>({
  id: "part/batch-suspect",
  severity: "error",
  on: ["engine", "entry"],
  reads: ["fits"],
  page: {
    what: "A part that an alert names, by its batch or its serial number, is fitted. It is quiet once the part is taken out, and before the day of the alert.",
    why: "A batch with a fault is found by tracing where it went. The record knows.",
    remedy: "Follow the alert: take the part out, or have it tested and the finding accepted with the test named.",
    faulty: [{ text: `${SHOP}${fitting("B71")}` }],
    sound: [{ text: `${SHOP}${fitting("B77")}` }, { text: `${SHOP}${fitting("B71")}`, asOf: "2026-02-28" }],
  },
  check(block, ask, report) {
    const engine = block.kind === "engine" ? block.name : engineOf(block, ask);
    for (const alert of ask.alerts()) {
      if (alert.on === undefined || alert.on > ask.asOf()) continue;
      for (const fit of block.fits) {
        for (const suspect of alert.suspects) {
          const which = meets(fit, suspect);
          if (
            which === "" ||
            (engine !== "" && itemOf(ask.total(partsFitted, engine), block.ref, fit.at)?.left !== undefined)
          )
            continue;
          report(
            {
              at: fit.at,
              role: which.startsWith("batch") ? "batch" : which.startsWith("serial") ? "serial" : "number",
            },
            { part: fit.part, which, engine, alert: alert.name, title: alert.title, on: formatDate(alert.on) },
            {
              place: fit.place?.text ?? "",
              related: [{ ref: alert.ref, spot: { at: suspect.at }, says: "The alert" }],
            },
          );
          break;
        }
      }
    }
  },
  say: ({ part, which, engine, alert, title, on }) =>
    `${part}, ${which}, fitted${engine === "" ? "" : ` in ${engine}`}, is suspect by alert ${alert} of ${on} ("${title}"). Take it out, or have it tested as the alert asks.`,
});
