import { dialSetting } from "../../calc/torque-adapter.ts";
import { compareMeasures, convertNumber, type Measure } from "../../quantity/compare.ts";
import { decimalsOf, formatNumber } from "../../quantity/format.ts";
import { findUnit } from "../../quantity/units.ts";
import { stepOf } from "../../totals/reading-verdict.ts";
import { NUTS } from "../example-shops.ts";
import { textOf, WORK } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly place: string;
  readonly setting: Measure;
  readonly wanted: string;
  readonly value: Measure;
  readonly adapter: string;
}

const NEWTON_METRE = findUnit("N.m");
const MILLIMETRE = findUnit("mm");
const DEGREE = findUnit("deg");

export default rule<(typeof WORK)[number], Found>({
  id: "torque/wrong-setting",
  severity: "error",
  on: WORK,
  reads: ["torques"],
  page: {
    what: "The setting of the wrench does not give the torque that the line states at the fastener.",
    why: "An adapter that lengthens the wrench adds to the torque: setting = torque x wrench / (wrench + adapter x cos angle), drive centre to drive centre, the wrench to its grip mark (US Army TM 9-254 pp. 91-92). The setting may differ by half of its last digit.",
    remedy: "Set the wrench to the figure given and tighten again, or correct the lengths.",
    faulty: [
      {
        text: `${NUTS}entry E1 2026-02-27 build job J26-014\n  torque cylinder.nut[1..2/1..3] 40 N.m oiled with TW-1 adapter 50 mm on 300 mm set 40.0 N.m\n`,
      },
    ],
    sound: [
      {
        text: `${NUTS}entry E1 2026-02-27 build job J26-014\n  torque cylinder.nut[1..2/1..3] 40 N.m oiled with TW-1 adapter 50 mm on 300 mm set 34.3 N.m\n`,
      },
    ],
  },
  check(block, _ask, report) {
    for (const { at, place, value, adapter, setting } of block.torques) {
      if (!setting || setting.unit.dimension !== value.unit.dimension || !NEWTON_METRE || !MILLIMETRE || !DEGREE)
        continue;
      if (!adapter) {
        if (
          compareMeasures(value, setting) !== 0 &&
          Math.abs(convertNumber(value.value, value.unit, setting.unit) - setting.value) > stepOf(setting) / 2
        ) {
          report(
            { at, role: "set" },
            {
              place: place.text,
              setting,
              wanted: inUnit(convertNumber(value.value, value.unit, setting.unit), setting),
              value,
              adapter: "",
            },
            { place: place.text },
          );
        }
        continue;
      }
      const { extension, length, angle } = adapter;
      if (
        extension.unit.dimension !== "length" ||
        length.unit.dimension !== "length" ||
        (angle && angle.unit.dimension !== "angle")
      )
        continue;
      const angle_deg = angle ? convertNumber(angle.value, angle.unit, DEGREE) : 0;
      const worked = dialSetting(convertNumber(value.value, value.unit, NEWTON_METRE), {
        wrenchLength_mm: convertNumber(length.value, length.unit, MILLIMETRE),
        adapterLength_mm: convertNumber(extension.value, extension.unit, MILLIMETRE),
        angle_deg,
      });
      if (!worked.ok) continue;
      const wanted = convertNumber(worked.dial_Nm, NEWTON_METRE, setting.unit);
      // Half of the last digit written belongs to the setting; the tiny allowance is for the doubles.
      if (Math.abs(wanted - setting.value) <= (stepOf(setting) / 2) * (1 + 1e-9)) continue;
      const angled = angle_deg === 0 ? "" : ` at ${textOf(angle as Measure)}`;
      report(
        { at, role: "set" },
        {
          place: place.text,
          setting,
          wanted: inUnit(wanted, setting),
          value,
          adapter: `an adapter of ${textOf(extension)}${angled} on a wrench of ${textOf(length)}`,
        },
        { place: place.text },
      );
    }
  },
  say: ({ place, setting, wanted, value, adapter }) =>
    `${place}: ${textOf(value)} at the fastener ${adapter === "" ? "without an adapter" : `through ${adapter}`} takes a setting of ${wanted}, not ${textOf(setting)}, so the fastener did not get what the line says. Set the wrench anew and tighten again, or correct the line.`,
  repair: ({ wanted }, spot) => [
    { title: `Write set ${wanted}`, grade: "review", edits: [{ kind: "replace", spot, text: wanted }] },
  ],
});

/** The figure in the unit and with the decimals of what was written. */
function inUnit(value: number, like: Measure): string {
  return `${formatNumber(value, decimalsOf(like.text))} ${like.unit.spelling}`;
}
