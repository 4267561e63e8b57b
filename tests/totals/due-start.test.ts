import { expect, test } from "vitest";
import { dueItems } from "../../server/totals/due-items.ts";
import { shopOf } from "../support/shop.ts";

test("hours stated on the day of the overhaul count for tasks from then on, whichever line stands first", () => {
  const of = (...lines: string[]) =>
    shopOf(
      {
        "a.gudgeon": `engine-type T1\ntask oil-change T1 every 50 h\nengine E1 T1\n${lines.map((line) => `  ${line}\n`).join("")}  hours tsn 820.0 h on 2026-04-01\n`,
      },
      { asOf: "2026-04-20" },
    ).checker.ask;
  const hours = "hours tsn 800.0 h on 2026-01-10";
  const overhauled = 'overhauled on 2026-01-10 "Bench 4"';
  for (const ask of [of(hours, overhauled), of(overhauled, hours)]) {
    const item = ask.total(dueItems, "E1").find((one) => one.name === "oil-change");
    expect(item?.governing).toMatchObject({ measure: "hours", dueAt: 850, left: 30 });
  }
});
