import type { CivilDate } from "../../quantity/civil-date.ts";
import { formatDate } from "../../quantity/civil-date.ts";
import { engineOf, fittingsOf, itemOf, partsFitted } from "../../totals/parts.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly part: string;
  readonly serial: string;
  readonly engine: string;
  readonly other: string;
  readonly since: string;
}

const SHOP = `${JOB}engine C9-0300 Curlew-9\n  fit part "MG-44" serial "MG-1021" source "release note 3312" on 2019-05-20\n`;
const ENTRY = 'entry E1 2026-02-27 build job J26-014\n  fit part "MG-44" serial "MG-1021" source "stock"\n';

export default rule<"engine" | "entry", Found>({
  id: "part/serial-in-two-engines",
  severity: "error",
  on: ["engine", "entry"],
  reads: ["fits"],
  page: {
    what: "One part with its serial number is recorded in two engines at once. It stands at the later fitting.",
    why: "A part can be in one place. Either it was taken out of the other engine and nobody wrote that down, or a number was misread, or the number was put on two parts; its hours and its history belong to the wrong one.",
    remedy: "Record the removal from the other engine, or correct the number.",
    faulty: [{ text: `${SHOP}${ENTRY}` }],
    sound: [
      { text: `${SHOP}${ENTRY.replace("MG-1021", "MG-1022")}` },
      { text: `${SHOP}entry S1 2026-01-20 service engine C9-0300\n  remove part "MG-44" serial "MG-1021"\n${ENTRY}` },
    ],
  },
  check(block, ask, report) {
    const engine = block.kind === "engine" ? block.name : engineOf(block, ask);
    if (engine === "") return;
    for (const fit of block.fits) {
      if (fit.serial === "") continue;
      const others = fittingsOf(fit.part, fit.serial, ask).filter((one) => one.engine !== engine && one.engine !== "");
      if (others.length === 0 || itemOf(ask.total(partsFitted, engine), block.ref, fit.at)?.left !== undefined)
        continue;
      const day = fit.on ?? (block.kind === "engine" ? undefined : block.date);
      for (const other of others) {
        if (
          itemOf(ask.total(partsFitted, other.engine), other.ref, other.fact.at)?.left !== undefined ||
          !isLater(day, block.ref, other)
        )
          continue;
        report(
          { at: fit.at, role: "serial" },
          {
            part: fit.part,
            serial: fit.serial,
            engine,
            other: other.engine,
            since: other.date === undefined ? "" : formatDate(other.date),
          },
          { related: [{ ref: other.ref, spot: { at: other.fact.at }, says: `Fitted in ${other.engine}` }] },
        );
        break;
      }
    }
  },
  say: ({ part, serial, engine, other, since }) =>
    `${part} serial ${serial} is fitted in ${engine}, and in ${other}${since === "" ? "" : ` since ${since}`}, from which nobody removed it. One part cannot be in two engines: record the removal, or correct the number.`,
});

/** Of two fittings the later one is reported; on one day, or without dates, the one whose block comes later by name. */
function isLater(
  day: CivilDate | undefined,
  ref: string,
  other: { readonly date: CivilDate | undefined; readonly ref: string },
): boolean {
  const [own, theirs] = [day ?? Number.NEGATIVE_INFINITY, other.date ?? Number.NEGATIVE_INFINITY];
  return own === theirs ? ref > other.ref : own > theirs;
}
