/** Places and columns: those that nobody has measured first. */
import { pathsOf, placeText } from "../../facts/place.ts";
import { channelFeatures, featuresToMeasure, torquesToDo, unitOfFeature } from "../../report/bench-sheet.ts";
import { featureCoverage, placesOfType } from "../../totals/coverage.ts";
import { jobContext } from "../../totals/job-context.ts";
import { historyKey } from "../../totals/place-history.ts";
import type { Completion } from "../feature.ts";
import { leadWord } from "../under-cursor.ts";
import { offer, type Typing, typedRole } from "./context.ts";

/** An editor filters what it is given; more than these would only be scrolled past. */
const AT_MOST = 300;

/** Features that the engine type or the limits of the revision name. */
function features(typing: Typing): readonly string[] {
  const { ask, type, scope, block } = typing;
  const found = new Set<string>();
  const revision = block?.kind === "limits" ? block.revision : ask.total(jobContext, scope).revision;
  for (const line of ask.engineType(type)?.places ?? []) found.add(line.place.feature);
  const limits = ask.limits(type, revision) ?? ask.revisions(type).at(-1);
  for (const line of limits?.limits ?? []) found.add(line.place.feature);
  for (const line of limits?.torques ?? []) found.add(line.place.feature);
  return [...found];
}

/** The places as the engine type lays them down: `cylinder[1..9]`. */
function setsOfType(typing: Typing): readonly { readonly text: string; readonly title: string }[] {
  return (typing.ask.engineType(typing.type)?.places ?? []).map((line) => ({
    text: line.place.text,
    title: line.title,
  }));
}

/** Places still to be measured, as `measure` writes them. */
function unmeasured(typing: Typing): Completion[] {
  const { ask, scope, work } = typing;
  if (scope === "") return [];
  const found: Completion[] = [];
  for (const { feature, wanted } of featuresToMeasure(scope, work?.step ?? "", ask)) {
    for (const line of ask.total(featureCoverage, historyKey(scope, feature))) {
      for (const path of [...line.again, ...line.missing]) {
        if (found.length >= AT_MOST) return found;
        found.push(
          offer(
            typing,
            {
              label: placeText(feature, path),
              kind: "place",
              detail: line.again.includes(path) ? "to be measured again" : "not yet measured",
            },
            wanted ? 0 : 1,
            found.length,
          ),
        );
      }
    }
  }
  return found;
}

export function places(typing: Typing): Completion[] {
  const word = leadWord(typing.before);
  const { ask, scope, work } = typing;
  const found: Completion[] = [];
  const seen = new Set<string>();
  const add = (one: Completion): void => {
    if (!seen.has(one.label)) found.push(one);
    seen.add(one.label);
  };
  if (word === "measure") for (const one of unmeasured(typing)) add(one);
  if ((word === "torque" || word === "locked") && typing.block?.kind !== "limits" && scope !== "") {
    for (const [i, one] of torquesToDo(scope, work?.step ?? "", ask).entries())
      add(
        offer(
          typing,
          { label: one.place, kind: "place", detail: `${one.missing} not yet torqued; ${one.bounds}` },
          0,
          i,
        ),
      );
  }
  for (const [i, set] of setsOfType(typing).entries())
    add(offer(typing, { label: set.text, kind: "place", detail: set.title }, 3, i));
  // Parts are fitted, moved and found wrong one at a time.
  if (word !== "measure" && word !== "torque" && word !== "places") {
    for (const line of ask.engineType(typing.type)?.places ?? []) {
      for (const path of pathsOf(line.place)) {
        if (found.length >= AT_MOST * 4) break;
        add(
          offer(
            typing,
            { label: placeText(line.place.feature, path), kind: "place", detail: line.title },
            4,
            found.length,
          ),
        );
      }
    }
  }
  // What a stand shows while the engine runs is nothing that a bench measures.
  const channels = channelFeatures(ask);
  const onBench = work?.kind === "entry";
  for (const [i, feature] of features(typing).entries()) {
    if (!onBench || !channels.has(feature)) add(offer(typing, { label: feature, kind: "place" }, 5, i));
  }
  for (const [i, channel] of [...channels].entries()) {
    if (!onBench) add(offer(typing, { label: channel, kind: "place", detail: "channel of a stand" }, 6, i));
  }
  return found;
}

/** Features alone, for the words of a route's needs. */
export function featureWords(typing: Typing): Completion[] {
  const words = new Set<string>();
  for (const name of typing.ask.names("engine-type")) {
    if (typing.type !== "" && name !== typing.type) continue;
    for (const line of typing.ask.engineType(name)?.places ?? []) words.add(line.place.feature);
  }
  return [...words].map((word, i) => offer(typing, { label: word, kind: "place" }, 3, i));
}

/** `cylinder.bore/mm`: the heading of a table, with the unit of the limit. */
export function gridHeads(typing: Typing): Completion[] {
  const { ask, scope, work } = typing;
  const open = new Map(featuresToMeasure(scope, work?.step ?? "", ask).map((one) => [one.feature, one]));
  const channels = channelFeatures(ask);
  return [...new Set([...open.keys(), ...features(typing)])]
    .filter((feature) => !channels.has(feature))
    .flatMap((feature, i) => {
      const unit = unitOfFeature(scope, feature, ask);
      const missing = open.get(feature);
      return unit === ""
        ? []
        : [
            offer(
              typing,
              {
                label: `${feature}/${unit}`,
                kind: "place",
                detail: missing ? `${missing.missing} not yet measured` : "",
              },
              missing ? (missing.wanted ? 0 : 1) : 3,
              i,
            ),
          ];
    });
}

/** Columns of a table: the sub-places of its feature that are not in the heading yet. */
export function columnNames(typing: Typing): Completion[] {
  const feature = /^[^[/]*/u.exec(typedRole(typing.before, "head"))?.[0] ?? "";
  const written = new Set(typing.before.tokens.map((token) => token.text));
  const names = new Set(
    placesOfType(typing.type, feature, typing.ask).map((path) => path.slice(path.lastIndexOf("/") + 1)),
  );
  return [...names]
    .filter((name) => /^\p{L}/u.test(name) && !written.has(name))
    .map((name, i) => offer(typing, { label: name, kind: "place" }, 0, i));
}
