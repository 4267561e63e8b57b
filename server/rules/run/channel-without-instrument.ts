/** A column of a log behind which no instrument stands, or one that was out of calibration on the day. */

import { covers } from "../../facts/place.ts";
import { formatDate } from "../../quantity/civil-date.ts";
import { calibrationOn } from "../../totals/instrument-uses.ts";
import { logsOf } from "../../totals/run-logs.ts";
import { headingSpot } from "../../totals/run-table.ts";
import { rule } from "../rule.ts";

interface Data {
  readonly channel: string;
  readonly stand: string;
  readonly instrument: string;
  /** Why the instrument does not serve. */
  readonly why: string;
}

export default rule({
  id: "run/channel-without-instrument",
  severity: "warning",
  on: ["run"],
  reads: ["logs", "logFiles"],
  page: {
    what: "A channel of the log has no instrument on the stand that the run names, or the instrument was not in calibration on the day of the run.",
    why: "A pressure or temperature that nobody can trace to a calibrated instrument proves nothing, however good it looks.",
    remedy:
      "Name the instrument with a `channel` line of the stand, add the calibration that covers the day, or run again with one that is in calibration. Running an engine can hurt or kill: keep clear of the propeller and follow the maker's data and the local rules, which come before anything said here.",
    faulty: [
      {
        text: `instrument TC-9 "Thermocouples"
  calibrated 2026-01-10 until 2027-01-10 "certificate 902"
stand TS-1 "Run stand, north bay"
  channel cht[1..9] with TC-9
engine C9-0412 Curlew-9
job J1 engine C9-0412
run R1 2026-04-11 job J1 stand TS-1 by ATH second RPE
  log time oil.pressure/psi cht[1..2]/C
  10:02 48 17 17
`,
      },
    ],
    sound: [
      {
        text: `instrument TC-9 "Thermocouples"
  calibrated 2026-01-10 until 2027-01-10 "certificate 902"
stand TS-1 "Run stand, north bay"
  channel cht[1..9] with TC-9
engine C9-0412 Curlew-9
job J1 engine C9-0412
run R1 2026-04-11 job J1 stand TS-1 by ATH second RPE
  log time cht[1..2]/C
  10:02 17 17
`,
      },
    ],
  },
  check(run, ask, report) {
    const stand = run.stand === "" ? undefined : ask.stand(run.stand);
    // A name that nothing declares is the name rules' finding.
    if ((run.stand !== "" && !stand) || run.headerBroken || run.date === undefined) return;
    const on = run.date;
    for (const log of logsOf(ask, run)) {
      let heading = -1;
      for (const column of log.columns) {
        if (column.heading === heading) continue;
        const spot = headingSpot(log, column);
        const line = stand?.channels.find(
          (channel) => channel.place.feature === column.feature && covers(channel.place, column.path),
        );
        const data = { channel: column.feature, stand: run.stand, instrument: line?.instrument ?? "" };
        if (!line) {
          if (stand?.unread.includes("channel")) continue;
          heading = column.heading;
          report(spot, { ...data, why: "" }, { place: column.place });
          continue;
        }
        const instrument = ask.instrument(line.instrument);
        if (!instrument || instrument.unread.includes("calibrated")) continue;
        const { state, at, day } = calibrationOn(instrument, on);
        const withdrawn = instrument.withdrawn && instrument.withdrawn.on <= on ? instrument.withdrawn : undefined;
        if (state === "good" && !withdrawn) continue;
        const since = day === undefined ? "" : formatDate(day);
        const why = withdrawn
          ? `was withdrawn on ${formatDate(withdrawn.on)}`
          : state === "failed"
            ? `failed at calibration on ${since}`
            : state === "lapsed"
              ? `was in calibration until ${since} only`
              : "has no calibration up to that day";
        heading = column.heading;
        report(
          spot,
          { ...data, why: `${why}; the run was on ${formatDate(on)}` },
          {
            place: column.place,
            related: [
              {
                ref: instrument.ref,
                spot: { at: withdrawn?.at ?? at },
                says: `${instrument.name}, ${instrument.title}`,
              },
              ...(stand ? [{ ref: stand.ref, spot: { at: line.at }, says: "the channel of the stand" }] : []),
            ],
          },
        );
      }
    }
  },
  say: (d: Data) => {
    if (d.stand === "")
      return `The run names no stand, so no instrument stands behind ${d.channel}. Name the stand and its channels, or nothing can be traced to a calibration.`;
    if (d.instrument === "")
      return `Stand ${d.stand} has no channel ${d.channel}, so no instrument stands behind these figures. Add a channel line with the instrument, or leave the column out.`;
    return `${d.channel} is read with ${d.instrument}, which ${d.why}. Figures that cannot be traced prove nothing: add the calibration that covers the day, or run again.`;
  },
});
