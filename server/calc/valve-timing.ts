/**
 * Sums of valve timing: how long each valve is open, and how long both are.
 */
import { settle, show } from "./figures.ts";
import { answer, type Result, refuse, refuseUnusable, type Worked } from "./result.ts";

/** The four events as they are usually stated, degrees of the crank. A negative value is on the other side of the centre. */
export interface ValveEvents {
  /** Intake opens before top dead centre. */
  readonly intakeOpens_degBefore: number;
  /** Intake closes after bottom dead centre. */
  readonly intakeCloses_degAfter: number;
  /** Exhaust opens before bottom dead centre. */
  readonly exhaustOpens_degBefore: number;
  /** Exhaust closes after top dead centre. */
  readonly exhaustCloses_degAfter: number;
}

export interface ValveTiming extends Worked {
  intakeOpen_deg: number;
  exhaustOpen_deg: number;
  /** Both open about top dead centre; negative when there is a pause between them. */
  overlap_deg: number;
  /** Middle of the intake opening after top dead centre, and of the exhaust opening before it. */
  intakeMiddle_degAfter: number;
  exhaustMiddle_degBefore: number;
}

/**
 * Durations, overlap and middles of the openings.
 * @param events degrees of the crank, each from -90 to 120
 * Source: sums over the half turns between the dead centres; example in US Army TM 9-8000 para 2-17.
 */
export function valveTiming(events: ValveEvents): Result<ValveTiming> {
  const {
    intakeOpens_degBefore: io,
    intakeCloses_degAfter: ic,
    exhaustOpens_degBefore: eo,
    exhaustCloses_degAfter: ec,
  } = events;
  const named = { "intake opening": io, "intake closing": ic, "exhaust opening": eo, "exhaust closing": ec };
  const bad = refuseUnusable(named);
  if (bad) return bad;
  for (const [name, value] of Object.entries(named)) {
    if (value < -90 || value > 120)
      return refuse(`The ${name} at ${show(value)} degrees is outside -90 to 120 degrees from its dead centre.`);
  }
  const intakeOpen_deg = settle(io + 180 + ic);
  const exhaustOpen_deg = settle(eo + 180 + ec);
  const overlap_deg = settle(io + ec);
  return answer({
    intakeOpen_deg,
    exhaustOpen_deg,
    overlap_deg,
    intakeMiddle_degAfter: settle(intakeOpen_deg / 2 - io),
    exhaustMiddle_degBefore: settle(exhaustOpen_deg / 2 - ec),
    steps: [
      `Intake open: ${show(io)} + 180 + ${show(ic)} = ${show(intakeOpen_deg)} degrees.`,
      `Exhaust open: ${show(eo)} + 180 + ${show(ec)} = ${show(exhaustOpen_deg)} degrees.`,
      `Overlap: ${show(io)} + ${show(ec)} = ${show(overlap_deg)} degrees.`,
    ],
  });
}

/**
 * Crank travel from one event to the next event of the same cylinder.
 * @param from_deg angle after the top dead centre of the power stroke at which it begins, -360 to 720
 * @param until_deg the same for the end
 * @returns degrees forward, 0 up to but not including 720
 */
export function crankTravel(from_deg: number, until_deg: number): Result<{ travel_deg: number } & Worked> {
  const bad = refuseUnusable({ "first event": from_deg, "second event": until_deg });
  if (bad) return bad;
  for (const angle of [from_deg, until_deg]) {
    if (angle < -360 || angle > 720)
      return refuse(`An event at ${show(angle)} degrees is outside -360 to 720 degrees.`);
  }
  const travel_deg = settle((((until_deg - from_deg) % 720) + 720) % 720);
  return answer({
    travel_deg,
    steps: [`From ${show(from_deg)} to ${show(until_deg)} degrees: ${show(travel_deg)} degrees forward.`],
  });
}
