import { leastShareOfRange, wrenchRange } from "../../calc/wrench-range.ts";
import { convertNumber, type Measure } from "../../quantity/compare.ts";
import { findUnit } from "../../quantity/units.ts";
import { NUTS } from "../example-shops.ts";
import { textOf, WORK } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly place: string;
  readonly wrench: string;
  readonly dial: Measure;
  readonly greatest: Measure;
  readonly verdict: "below a fifth" | "below its least setting" | "above its greatest setting";
}

const NEWTON_METRE = findUnit("N.m");

export default rule<(typeof WORK)[number], Found>({
  id: "torque/wrench-range",
  severity: "warning",
  on: WORK,
  reads: ["torques"],
  page: {
    what: "A wrench was used outside its range, or below a fifth of its greatest setting.",
    why: "The accuracy of a wrench is stated from a fifth of its greatest setting upwards (US Army TM 1-1500-204-23-9 p. 139); below, a click means little.",
    remedy: "Tighten with a wrench whose range fits.",
    faulty: [
      {
        text: `${NUTS.replace("38..42", "14..18")}entry E1 2026-02-27 build job J26-014\n  torque cylinder.nut[1..2/1..3] 16 N.m oiled with TW-1\n`,
      },
    ],
    sound: [
      {
        text: `${NUTS.replace("38..42", "18..22")}entry E1 2026-02-27 build job J26-014\n  torque cylinder.nut[1..2/1..3] 20 N.m oiled with TW-1\n`,
      },
    ],
  },
  check(block, ask, report) {
    for (const { at, place, value, setting, adapter, instrument } of block.torques) {
      const wrench = instrument === "" ? undefined : ask.instrument(instrument);
      const greatest = wrench?.range?.high;
      // With an adapter and no setting stated, what the dial showed is not known.
      const dial = setting ?? (adapter ? undefined : value);
      if (
        !wrench ||
        !greatest ||
        !dial ||
        greatest.unit.dimension !== "torque" ||
        dial.unit.dimension !== "torque" ||
        !NEWTON_METRE
      )
        continue;
      const least = wrench.range?.low;
      const dial_Nm = convertNumber(dial.value, dial.unit, NEWTON_METRE);
      const greatest_Nm = convertNumber(greatest.value, greatest.unit, NEWTON_METRE);
      const least_Nm =
        least && least.value > 0 && least.unit.dimension === "torque"
          ? convertNumber(least.value, least.unit, NEWTON_METRE)
          : undefined;
      // Clearly inside needs no working; near the ends the settled figures decide.
      const lowest_Nm = Math.max(greatest_Nm * leastShareOfRange, least_Nm ?? 0);
      if (dial_Nm > lowest_Nm + 1e-6 && dial_Nm <= greatest_Nm) continue;
      const worked = wrenchRange(dial_Nm, greatest_Nm, least_Nm);
      if (!worked.ok || worked.verdict === "inside") continue;
      report(
        { at, role: setting ? "set" : "value" },
        { place: place.text, wrench: instrument, dial, greatest, verdict: worked.verdict },
        {
          place: place.text,
          severity: worked.verdict === "above its greatest setting" ? "error" : "warning",
          related: [{ ref: wrench.ref, spot: { at: 0 }, says: `${instrument}: ${wrench.range?.text ?? ""}` }],
        },
      );
    }
  },
  say: ({ place, wrench, dial, greatest, verdict }) =>
    `${place}: ${textOf(dial)} on ${wrench} is ${verdict === "below a fifth" ? `below ${leastShareOfRange * 100} % of its greatest setting of ${textOf(greatest)}` : `${verdict}${verdict === "above its greatest setting" ? ` of ${textOf(greatest)}` : ""}`}, where its accuracy is not stated. Tighten with a wrench whose range fits.`,
});
