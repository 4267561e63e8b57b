/** Blocks of the reference side other than people, instruments and tasks: types, limits, schedules, routes, stands, alerts, rules. */
import { batchKey } from "../../checking/ask.ts";
import { formatDate } from "../../quantity/civil-date.ts";
import { few, measureText, type Row, said } from "../../report/wording.ts";
import { engineFigures } from "../../totals/engine-figures.ts";
import { jobContext } from "../../totals/job-context.ts";
import { needText, routeProgress } from "../../totals/route-progress.ts";
import type { About } from "./context.ts";

export const aboutType: About = ({ key }, { ask }) => {
  const type = ask.engineType(key);
  if (!type) return undefined;
  const { layout } = type;
  return {
    title: `Engine type ${key}${type.title === "" ? "" : `: ${type.title}`}`,
    sections: [
      {
        heading: "",
        rows: said(
          ["layout", layout ? `${layout.arrangement} ${layout.count}` : ""],
          ["numbering", type.numbering ? `${type.numbering.sense} from ${type.numbering.end}` : ""],
          ["rotation", type.rotation ? `${type.rotation.sense} seen from ${type.rotation.end}` : ""],
          [
            "bore and stroke",
            [type.bore, type.stroke]
              .filter((one) => one !== undefined)
              .map(measureText)
              .join(" x "),
          ],
          [
            "limits",
            few(
              ask
                .revisions(key)
                .map(
                  (one) => `revision ${one.revision}${one.from === undefined ? "" : ` from ${formatDate(one.from)}`}`,
                ),
            ),
          ],
          ["tasks", few(ask.tasksOf(key).map((task) => task.name))],
          ["bulletins", few(ask.bulletinsOf(key).map((bulletin) => bulletin.name))],
          [
            "engines",
            few(
              ask
                .engines()
                .filter((engine) => engine.type === key)
                .map((engine) => engine.name),
            ),
          ],
        ),
      },
      ...engineFigures(ask, type).map(({ heading, steps }) => ({
        heading,
        rows: steps.map((step): Row => ["", step]),
      })),
    ],
  };
};

export const aboutLimits: About = ({ key }, { ask }) => {
  const [type = "", revision = ""] = key.split("/");
  const limits = ask.limits(type, revision);
  if (!limits) return undefined;
  const jobs = ask.jobs().filter((job) => {
    const context = ask.total(jobContext, job.name);
    return context.type === type && context.revision === revision;
  });
  return {
    title: `Limits ${type} revision ${revision}${limits.title === "" ? "" : `: ${limits.title}`}`,
    sections: [
      {
        heading: "",
        rows: said(
          ["in force", limits.from === undefined ? "" : `from ${formatDate(limits.from)}`],
          ["lines", `${limits.limits.length} limits, ${limits.torques.length} torques`],
          [
            "other revisions",
            few(
              ask
                .revisions(type)
                .filter((one) => one.revision !== revision)
                .map((one) => one.revision),
            ),
          ],
          ["jobs that work to it", few(jobs.map((job) => job.name))],
        ),
      },
    ],
  };
};

export const aboutRunIn: About = ({ key }, { ask }) => {
  const schedule = ask.runIn(key);
  if (!schedule) return undefined;
  const steps = schedule.steps.map(
    (step): Row => [
      `step ${step.name}`,
      `${measureText(step.length)} at ${step.range.text}${step.bounds.map((one) => `, ${one.channel.text} ${one.bounds.text}`).join("")}`,
    ],
  );
  return {
    title: `Running-in schedule ${key}`,
    sections: [
      {
        heading: "",
        rows: [
          ...schedule.starts.map(
            (one): Row => ["start", `${one.channel.text} ${one.bounds.text} within ${measureText(one.within)}`],
          ),
          ...schedule.warms.map(
            (one): Row => [
              "warm",
              `${one.channel.text} ${one.bounds.text} before ${one.condition.text} ${measureText(one.limit)}`,
            ],
          ),
          ...schedule.cools.map((one): Row => ["cool", `${one.channel.text} ${one.bounds.text}`]),
          ...steps,
        ],
      },
    ],
  };
};

export const aboutRoute: About = ({ key }, { ask }) => {
  const route = ask.route(key);
  if (!route) return undefined;
  return {
    title: `Route ${key}${route.type === "" ? "" : `, ${route.type}`}`,
    sections: [
      {
        heading: "",
        rows: route.steps.map(
          (step): Row => [
            step.name,
            `${step.after.length > 0 ? `after ${step.after.join(", ")}; ` : ""}${few(step.needs.map(needText), 5)}`,
          ],
        ),
      },
      {
        heading: "Jobs",
        rows: ask
          .jobs()
          .filter((job) => job.route === key)
          .map((job): Row => {
            const { steps, stepsDone, next } = ask.total(routeProgress, job.name);
            return [job.name, `${stepsDone} of ${steps.length} steps done${next === "" ? "" : `, next ${next}`}`];
          }),
      },
    ],
  };
};

export const aboutStep: About = ({ key }, subject) => {
  const { ask, scope } = subject;
  const [name = "", step = ""] = key.split("/");
  const line = ask.route(name)?.steps.find((one) => one.name === step);
  if (!line) return undefined;
  const progress = scope === "" ? undefined : ask.total(routeProgress, scope).steps.find((one) => one.name === step);
  const rows = progress
    ? progress.needs.map(
        (need): Row => [
          need.text,
          need.met ? "met" : need.missing.length > 0 ? `wants ${few(need.missing, 4)}` : "not met",
        ],
      )
    : line.needs.map((need): Row => ["needs", needText(need)]);
  return {
    title: `Step ${step} of route ${name}`,
    sections: [
      {
        heading: "",
        rows: said(
          ["after", line.after.join(", ")],
          progress && ["blocks", few(progress.refs)],
          progress && ["standing", progress.done ? "done" : progress.started ? "begun" : "not begun"],
        ),
      },
      { heading: "Needs", rows },
    ],
  };
};

export const aboutStand: About = ({ key }, { ask }) => {
  const stand = ask.stand(key);
  if (!stand) return undefined;
  return {
    title: `Stand ${key} ${stand.title}`,
    sections: [
      {
        heading: "Channels",
        rows: stand.channels.map(
          (one): Row => [
            one.place.text,
            `${one.instrument}${ask.instrument(one.instrument) ? ` ${ask.instrument(one.instrument)?.title}` : " (no such instrument)"}`,
          ],
        ),
      },
      {
        heading: "Clubs",
        rows: stand.clubs.map((one): Row => [one.name, `${one.speeds.text}, ${one.points.length} points`]),
      },
    ],
  };
};

export const aboutAlert: About = ({ key }, { ask }) => {
  const alert = ask.alerts().find((one) => one.name === key);
  if (!alert) return undefined;
  return {
    title: `Alert ${key}${alert.on === undefined ? "" : `, ${formatDate(alert.on)}`}: ${alert.title}`,
    sections: [
      {
        heading: "",
        rows: alert.suspects.map((line): Row => {
          const fitted =
            line.batch === "" ? [] : ask.fitted(batchKey(line.batch)).filter((one) => one.fact.part === line.part);
          return [
            line.part,
            `${line.batch === "" ? "" : `batch ${line.batch}`}${few(line.serials)}; ${fitted.length === 0 ? "not fitted in these records" : `fitted in ${few([...new Set(fitted.map((one) => one.ref))])}`}`,
          ];
        }),
      },
    ],
  };
};
