/** Small shops that the examples of pages about signatures, routes, parts and releases begin with. */

/** A fitter, an inspector, a certifier. */
export const PEOPLE = `person ATH "Ada Thorne"
  role fitter from 2024-01-08
person RPE "Ruth Pell"
  role inspector from 2024-01-08
person CNO "Colin Noakes"
  role certifier from 2024-01-08
`;

/** One job without a route; the example adds entries. */
export const JOB = `${PEOPLE}engine-type Curlew-9
engine C9-0412 Curlew-9
job J26-014 engine C9-0412
`;

/** The same job with a route of the example's own. */
export const onRoute = (...steps: readonly string[]): string =>
  `${JOB.replace("job J26-014 engine C9-0412", "job J26-014 engine C9-0412 route overhaul")}route overhaul\n${steps.map((step) => `  step ${step}\n`).join("")}`;

/** A release and a signature under it. */
export const RELEASE = `release 2026-04-20 J26-014 by CNO "Carried out to the data named"
  sign certifier CNO 2026-04-20
`;
