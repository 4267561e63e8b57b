/** A power that cannot be stated from what the run says. */
import { standPower } from "../../totals/test-stand.ts";
import { rule } from "../rule.ts";

interface Data {
  /** Sentences. */
  readonly why: readonly string[];
  readonly powerKnown: boolean;
}

export default rule({
  id: "run/power-not-stated",
  severity: "warning",
  on: ["run"],
  reads: ["powers", "air"],
  page: {
    what: "A power line asks for a power, a correction or a consumption that what is written does not give: a speed outside the calibrated speeds of the club, a club that the stand does not have, air that is not stated, a correction outside its range, fuel by volume without a density.",
    why: "A power that is stretched beyond a calibration or a rule looks like a measured one, and is none.",
    remedy:
      "Run at a speed within the calibration, complete the air line with temperature, pressure at the stand and humidity, or leave the figure out. The correction is the one that the engine type names; the maker's data decide.",
    faulty: [
      {
        text: `stand TS-1 "Run stand"
  club CL-4 1200..2300 rpm at 1.225 kg/m3
  point 2000 rpm 180 kW
run R1 2026-04-11 job J1 stand TS-1 by ATH second RPE
  air 15 C 1013 hPa 0 %
  power club CL-4 at 2350 rpm
`,
      },
    ],
    sound: [
      {
        text: `stand TS-1 "Run stand"
  club CL-4 1200..2300 rpm at 1.225 kg/m3
  point 2000 rpm 180 kW
run R1 2026-04-11 job J1 stand TS-1 by ATH second RPE
  air 15 C 1013 hPa 0 %
  power club CL-4 at 2300 rpm
`,
      },
    ],
  },
  check(run, ask, report) {
    // A stand that nobody declares, and an air line that is broken, have findings of their own.
    if ((run.stand !== "" && !ask.stand(run.stand)) || run.unread.includes("air")) return;
    for (const line of run.powers) {
      const { refused, power } = standPower(ask, run, line);
      if (refused.length > 0) report({ at: line.at, role: "at" }, { why: refused, powerKnown: power.ok });
    }
  },
  say: (d: Data) =>
    `${d.powerKnown ? "The power stands as measured, and not all that belongs to it can be stated." : "No power is stated here."} ${d.why.join(" ")}`,
});
