/** First files for `gudgeon new`: short, complete enough to be checked without an error, with notes on what to put where. */

/** @param title the shop's name; @param day today, `2026-05-02` */
export function shopTemplate(title: string, day: string): Record<string, string> {
  const quoted = title.replaceAll('"', '""');
  return {
    "shop.gudgeon": `shop "${quoted}"
  language 1
  decision guarded            # ISO 14253-1: a reading must be inside its limit by the gauge's uncertainty
  stand-time counts           # running on the stand counts as engine hours
  notice 10 h or 30 days
`,
    "people.gudgeon": `# One block for each person who works, inspects or certifies. Roles and licences have dates; add lines, never overwrite them.

person AB "Your name"
  role fitter from ${day}
`,
    "instruments.gudgeon": `# One block for each gauge, wrench and sensor. A calibration serves up to and including its last day.

instrument MIC-1 "Micrometer 0 to 25 mm"
  range 0..25 mm
  resolution 0.001 mm
  uncertainty 0.002 mm
`,
  };
}

export function engineTemplate(name: string, type: string, day: string): string {
  return `engine ${name} ${type}
  owner "Whose engine it is"
  plate "What the data plate says"
  # Running hours since new and since overhaul, as the log book states them on this day:
  hours tsn 0.0 h tso 0.0 h on ${day}
`;
}

/** @param steps the route's steps; the first gets an entry */
export function jobTemplate(
  name: string,
  engine: string,
  route: string,
  revision: string,
  steps: readonly string[],
  day: string,
): string {
  const clauses = `${route === "" ? "" : ` route ${route}`}${revision === "" ? "" : ` limits ${revision}`}`;
  return `job ${name} engine ${engine}${clauses}
  scope "What was ordered"
  received ${day}

entry E1 ${day} ${steps[0] ?? "receive"} "As received" job ${name}
  received-with "Engine in its crate"
  note Photos first: every side, the data plate, what came loose in the crate.
`;
}
