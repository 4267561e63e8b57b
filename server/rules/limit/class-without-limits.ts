/** An ISO 286 class or fit from which no limits follow. */
import { rule } from "../rule.ts";

interface Data {
  readonly place: string;
  /** A sentence. */
  readonly why: string;
}

export default rule({
  id: "limit/class-without-limits",
  severity: "error",
  on: ["limits"],
  reads: ["limits"],
  page: {
    what: "A limit names an ISO 286 class or fit from which no limits follow: a class that the tables do not hold, a size beyond them, a fit for one part or one class for a clearance, or a class beside limits of its own.",
    why: "A limit that says nothing lets every reading pass.",
    remedy: "Correct the class or the size, or write the limits out as the standard's own table has them.",
    faulty: [
      {
        text: "limits Curlew-9 revision C from 2025-11-01\n  limit rod.bush-bore[1..9] class H7/p6 nominal 26 mm\n",
      },
    ],
    sound: [
      {
        text: "limits Curlew-9 revision C from 2025-11-01\n  limit rod.bush-bore[1..9] class H7 nominal 26 mm\n  limit rod.bush-fit[1..9] = rod.bush-bore - rod.bush class H7/p6 nominal 26 mm\n",
      },
    ],
  },
  check(limits, _ask, report) {
    for (const line of limits.limits) {
      const refused = line.toleranceClass?.refused ?? "";
      if (refused !== "") report({ at: line.at, role: "class" }, { place: line.place.text, why: refused });
    }
  },
  say: (d: Data) => `No limits of ${d.place} follow from this class. ${d.why}`,
});
