/** An instrument: its range and uncertainty, whether it was in calibration on the day, what it measured. */
import { formatDate } from "../../quantity/civil-date.ts";
import { boundsText, inBoth, measureText, type Row, said } from "../../report/wording.ts";
import { calibrationOn } from "../../totals/instrument-uses.ts";
import type { About, Subject } from "./context.ts";
import { dayOf } from "./person.ts";

const STATES = {
  good: "good",
  never: "never calibrated",
  "not-yet": "not yet calibrated",
  lapsed: "lapsed",
  failed: "found out at calibration",
} as const;

/** Readings and torques of each job that name it. */
function usedIn(name: string, subject: Subject): Row[] {
  const { ask } = subject;
  return ask.jobs().flatMap((job): Row[] => {
    let readings = 0;
    const features = new Set<string>();
    for (const feature of ask.featuresRead(job.name)) {
      for (const { fact } of ask.readings(job.name, feature)) {
        if (fact.instrument !== name && fact.standard !== name) continue;
        readings++;
        features.add(feature);
      }
    }
    const torques = ask.facts(job.name, "torques").filter(({ fact }) => fact.instrument === name).length;
    const parts = [
      readings > 0 && `${readings} readings of ${features.size} features`,
      torques > 0 && `${torques} lines of torque`,
    ].filter(Boolean);
    return parts.length === 0 ? [] : [[job.name, parts.join(", ")]];
  });
}

export const aboutInstrument: About = ({ key }, subject) => {
  const instrument = subject.ask.instrument(key);
  if (!instrument) return undefined;
  const day = dayOf(subject);
  const state = calibrationOn(instrument, day);
  const last = instrument.calibrations.reduce<(typeof instrument.calibrations)[number] | undefined>(
    (late, one) => (!late || one.until > late.until ? one : late),
    undefined,
  );
  return {
    title: `${instrument.name} ${instrument.title}`,
    sections: [
      {
        heading: "",
        rows: said(
          ["serial", instrument.serial],
          ["range", boundsText(instrument.range)],
          ["resolution", instrument.resolution ? measureText(instrument.resolution) : ""],
          ["uncertainty", instrument.uncertainty ? `${inBoth(instrument.uncertainty)}, expanded, k = 2` : "not stated"],
          instrument.length && ["drive centre to grip mark", inBoth(instrument.length)],
          [
            `calibration on ${formatDate(day)}`,
            `${STATES[state.state]}${state.day === undefined ? "" : state.state === "good" ? ` until ${formatDate(state.day)}` : `, ${formatDate(state.day)}`}`,
          ],
          last && [
            "last calibrated",
            `${formatDate(last.on)} until ${formatDate(last.until)}${last.certificate === "" ? "" : `, ${last.certificate}`}`,
          ],
          ...instrument.failures.map(
            (one): Row => [
              "found out",
              `${formatDate(one.on)}${one.reason === "" ? "" : `: ${one.reason}`}; readings since its last good calibration must be taken again`,
            ],
          ),
          instrument.withdrawn && [
            "withdrawn",
            `${formatDate(instrument.withdrawn.on)}${instrument.withdrawn.reason === "" ? "" : `: ${instrument.withdrawn.reason}`}`,
          ],
        ),
      },
      { heading: "Used in", rows: usedIn(key, subject) },
    ],
  };
};
