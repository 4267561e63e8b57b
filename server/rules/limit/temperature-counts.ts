/** A reading taken so far from 20 °C that the difference matters against the tolerance. */
import { settle, show } from "../../calc/figures.ts";
import { placeText } from "../../facts/place.ts";
import { airTemperature_C, atReference, roughCorrection_mm, toleranceWidth_mm } from "../../totals/at-reference.ts";
import { lineOf, readingsOfBlock } from "../../totals/readings-of-block.ts";
import { limitLine, sourceText, spotOf, textOf, WORK } from "../limit-wording.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly place: string;
  readonly read: string;
  readonly size_mm: number;
  readonly correction_mm: number;
  readonly width_mm: number;
  readonly air_C: number;
  readonly part: string;
  readonly scale: string;
  readonly source: string;
  readonly more: number;
}

/** By how much a correction in doubles may be off. */
const ROUGH_mm = 1e-8;
/** Share of the tolerance above which a correction is said. Source: common practice, no source. */
const SHARE = 0.2;

const SHOP = `engine-type Curlew-9
  material piston "aluminium"
limits Curlew-9 revision C from 2025-11-01
  limit piston.skirt[1..9] new 97.880..97.895 mm wear min 97.840 mm ref "4-3"
instrument MIC-100 "Micrometer 75 to 100 mm"
  material "steel"
  uncertainty 0.001 mm
  calibrated 2026-01-10 until 2027-01-10
engine C9-0412 Curlew-9
job J26-014 engine C9-0412 limits C
entry E1 2026-02-19 inspect job J26-014
  air 24 C
  measure piston.skirt[1] 97.889 mm with MIC-100
`;

export default rule<(typeof WORK)[number], Data>({
  id: "limit/temperature-counts",
  severity: "information",
  on: WORK,
  reads: ["readings", "air"],
  page: {
    what: "The entry states an air temperature at which part and instrument have grown so differently that the reading, corrected to 20 °C, moves by more than a fifth of the tolerance. The uncorrected reading is judged.",
    why: "Limits hold at 20 °C (ISO 1). An aluminium piston measured with a steel micrometer at 24 °C reads nearly five thousandths of a millimetre large; the expansions are handbook means and good to about a twentieth.",
    remedy:
      "Let part and instrument stand at 20 °C and measure again, or set the instrument on a standard of the part's own material. The maker's own figures come first.",
    faulty: [{ text: SHOP }],
    sound: [{ text: SHOP.replace("air 24 C", "air 22 C") }],
  },
  check(block, ask, report) {
    const air_C = airTemperature_C(block);
    if (air_C === undefined) return;
    for (const { feature, context, limits, readings } of readingsOfBlock(block, ask)) {
      const type = ask.engineType(context.type);
      const found = readings.flatMap((one) => {
        if (one.result !== "value" || one.status === "superseded") return [];
        const line = lineOf(limits, one);
        const width_mm = toleranceWidth_mm(line);
        if (width_mm === undefined) return [];
        // Nearly every correction is far below; only one that is not is worked out with its figures settled.
        const rough_mm = roughCorrection_mm(ask, air_C, type, feature, one);
        if (rough_mm === undefined || Math.abs(rough_mm) + ROUGH_mm <= SHARE * width_mm) return [];
        const at = atReference(ask, block, type, feature, one);
        if (!at?.corrected.ok || Math.abs(at.corrected.correction_mm) <= SHARE * width_mm) return [];
        return [{ one, line, width_mm, at, corrected: at.corrected }];
      });
      const [first] = found;
      if (!first?.one.measure) continue;
      const { one, line, width_mm, at, corrected } = first;
      report(
        spotOf(one),
        {
          place: placeText(feature, one.path),
          read: textOf(first.one.measure),
          size_mm: corrected.size_mm,
          correction_mm: corrected.correction_mm,
          width_mm: settle(width_mm),
          air_C: at.air_C,
          part: at.partMaterial,
          scale: `${at.scale} (${at.scaleMaterial})`,
          source: line ? sourceText(limits, line.reference) : "",
          more: found.length - 1,
        },
        { place: feature, related: line ? limitLine(limits, line) : [] },
      );
    }
  },
  say: (d) =>
    `${d.place} read ${d.read} at ${show(d.air_C)} C would be ${show(d.size_mm, 8)} mm at 20 C (${d.part} with ${d.scale}): a difference of ${show(Math.abs(d.correction_mm), 2)} mm, more than a fifth of the ${show(d.width_mm, 4)} mm that its limits leave (${d.source})${d.more > 0 ? `; and ${d.more} more in this block` : ""}. The reading is judged as it stands: measure at 20 C where it decides.`,
});
