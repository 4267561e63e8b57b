import { formatDate } from "../../quantity/civil-date.ts";
import { dueItems } from "../../totals/due-items.ts";
import { engineOf } from "../../totals/parts.ts";
import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly name: string;
  readonly engine: string;
  readonly life: string;
  readonly past: string;
  readonly asOf: string;
  readonly fitted: string;
}

const shop = (hours: string): string =>
  `${JOB.replace("engine-type Curlew-9\n", 'engine-type Curlew-9\n  life "MB-9140" 1200 h or 12 years\n').replace(
    "engine C9-0412 Curlew-9\n",
    `engine C9-0412 Curlew-9\n  hours tsn 780.0 h on 2019-05-20\n  fit part "MB-9140" serial "MB-207" at master-bearing source "release note 3310" on 2019-05-20\n  hours tsn ${hours} h on 2026-02-16\n`,
  )}`;

export default rule<"engine" | "entry", Found>({
  id: "part/life-expired",
  severity: "error",
  on: ["engine", "entry"],
  reads: ["fits"],
  page: {
    what: "A life-limited part that is fitted has reached the end of its life. Hours are those of the engine since the part was fitted and what it had run before (`since-new`); years count from the day of fitting, so a part that lay in stock may be older.",
    why: "A life is set where a part gives no warning before it fails. No inspection stretches it.",
    remedy: "Take the part out: `remove`, then `fit` another.",
    faulty: [{ text: shop("1984.3") }],
    sound: [{ text: shop("1184.3") }],
  },
  check(block, ask, report) {
    const engine = block.kind === "engine" ? block.name : engineOf(block, ask);
    if (engine === "") return;
    const items = ask
      .total(dueItems, engine)
      .filter((one) => one.kind === "life" && one.ref === block.ref && one.verdict === "overdue");
    for (const item of items) {
      const fit = block.fits.find((line) => line.at === item.at);
      if (!fit || !item.governing) continue;
      const { measure, left } = item.governing;
      const past =
        measure === "hours"
          ? `${(-left).toFixed(1)} h`
          : measure === "calendar"
            ? `${Math.round(-left)} days`
            : `${-left} cycles`;
      report(
        { at: fit.at, role: "number" },
        {
          name: item.name,
          engine,
          life: item.interval,
          past,
          asOf: formatDate(ask.asOf()),
          fitted: item.since ? formatDate(item.since.date) : "",
        },
        { place: fit.place?.text ?? "" },
      );
    }
  },
  say: ({ name, engine, life, past, asOf, fitted }) =>
    `${name}, in ${engine}${fitted === "" ? "" : ` since ${fitted}`}, is past its life of ${life} by ${past} as of ${asOf}. It may fail without warning: take it out.`,
});
