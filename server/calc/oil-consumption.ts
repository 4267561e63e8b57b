/**
 * Oil consumption of a run or of a stretch of service.
 */
import { settle, show } from "./figures.ts";
import { answer, type Result, refuse, refuseNotPositive, refuseUnusable, type Worked } from "./result.ts";

/** One US quart in litres: a quarter of 231 cubic inches. */
const litresPerUsQuart = 0.946352946;

export interface OilBalance {
  /** Oil in the engine at the beginning, L; left out together with `left_L` when it ended at the same mark. */
  filled_L?: number;
  /** Oil added during the stretch, L. */
  added_L: number;
  /** Oil drained or drawn off during the stretch (samples too), L. */
  drained_L: number;
  /** Oil left in the engine at the end, L. */
  left_L?: number;
  /** Running time, h. */
  hours_h: number;
}

export interface OilLimit {
  /** Greatest consumption, L/h. */
  greatest_Lph: number;
  /** Where it stands. */
  source: string;
}

export interface OilConsumption extends Worked {
  used_L: number;
  rate_Lph: number;
  rate_usqtph: number;
  /** Undefined without a limit; a rate equal to the limit is inside it. */
  within: boolean | undefined;
}

/**
 * Oil used, and the rate in L/h and US qt/h.
 * @param balance volumes in L and running time in h; either both levels or neither
 * @param limit the maker's, with its source; there is no universal one
 * @returns a refusal when more oil came out than went in: then a reading is wrong, or fuel or water is in the oil
 * Source: balance of volumes; 1 US quart = 0.946352946 L exactly (NIST HB 44).
 */
export function oilConsumption(balance: OilBalance, limit?: OilLimit): Result<OilConsumption> {
  const { added_L, drained_L, hours_h, filled_L, left_L } = balance;
  const bad =
    refuseUnusable({
      "oil added": added_L,
      "oil drained": drained_L,
      "oil at the start": filled_L ?? 0,
      "oil left": left_L ?? 0,
    }) ?? refuseNotPositive({ "running time": hours_h });
  if (bad) return bad;
  if ((filled_L === undefined) !== (left_L === undefined)) {
    return refuse(
      "The oil in the engine is known at one end of the stretch only; give both levels, or neither when they are the same mark.",
    );
  }
  for (const [name, value] of Object.entries({
    added: added_L,
    drained: drained_L,
    filled: filled_L ?? 0,
    left: left_L ?? 0,
  })) {
    if (value < 0) return refuse(`The oil ${name} cannot be ${show(value)} L.`);
  }
  const used_L = settle((filled_L ?? 0) + added_L - drained_L - (left_L ?? 0));
  if (used_L < 0) {
    return refuse(
      `${show(-used_L, 4)} L more oil came out than went in; a figure is wrong, or there is fuel or water in the oil.`,
    );
  }
  const rate_Lph = settle(used_L / hours_h);
  const rate_usqtph = rate_Lph / litresPerUsQuart;
  const levels = filled_L === undefined ? "" : `${show(filled_L)} + `;
  const rest = left_L === undefined ? "" : ` - ${show(left_L)}`;
  const steps = [
    `Used: ${levels}${show(added_L)} added - ${show(drained_L)} drained${rest} = ${show(used_L, 4)} L.`,
    `Rate: ${show(used_L, 4)} L / ${show(hours_h, 4)} h = ${show(rate_Lph, 3)} L/h (${show(rate_usqtph, 3)} US qt/h).`,
  ];
  if (limit) steps.push(`Limit: ${show(limit.greatest_Lph, 3)} L/h (${limit.source}).`);
  return answer({
    used_L,
    rate_Lph,
    rate_usqtph,
    within: limit === undefined ? undefined : rate_Lph <= settle(limit.greatest_Lph),
    steps,
  });
}

/**
 * A limit in the style of makers that state a mass of oil for each unit of power and hour.
 * @param rated_hp rated power, hp
 * @param mass_lbphph greatest mass of oil, lb/(hp h)
 * @param oil_lbpusgal density of the oil, lb/US gal
 * @returns limit in US qt/h and L/h
 * Source: qt/h = mass x power x 4 / density; the style is public, the figures come from the maker's current document.
 */
export function oilLimitFromPower(
  rated_hp: number,
  mass_lbphph: number,
  oil_lbpusgal: number,
): Result<{ greatest_usqtph: number; greatest_Lph: number } & Worked> {
  const bad = refuseNotPositive({
    "rated power": rated_hp,
    "mass of oil": mass_lbphph,
    "density of the oil": oil_lbpusgal,
  });
  if (bad) return bad;
  const greatest_usqtph = (mass_lbphph * rated_hp * 4) / oil_lbpusgal;
  const greatest_Lph = greatest_usqtph * litresPerUsQuart;
  return answer({
    greatest_usqtph,
    greatest_Lph,
    steps: [
      `Limit: ${show(mass_lbphph)} x ${show(rated_hp)} hp x 4 / ${show(oil_lbpusgal)} lb/gal = ${show(greatest_usqtph, 3)} US qt/h (${show(greatest_Lph, 3)} L/h).`,
    ],
  });
}
